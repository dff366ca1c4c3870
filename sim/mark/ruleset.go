package mark

// RuleSet holds what a published rule asks of a side-scan survey. What it says nothing of is
// 0 and stays the exercise's own.
type RuleSet struct {
	ID      string
	Name    string
	Edition string

	Coverage      float64 // share of the ground, 0..1
	Nadir         bool    // the strip under the fish needs a neighbour's look
	AltitudeMin   float64 // share of the range scale
	AltitudeMax   float64
	PingsPerMetre float64
	Within        float64 // 95 % radius of a position, metres
}

// RuleSets are those that an exercise can be marked by, each with its edition: newer
// ones may ask for something else.
func RuleSets() []RuleSet {
	return []RuleSet{
		{
			ID: "noaa_2021", Name: "NOAA Hydrographic Surveys Specifications and Deliverables", Edition: "2021, with the Field Procedures Manual 2014",
			Coverage:    1,    // FPM 2.5.3.1.2: 100 % is the whole area once
			AltitudeMin: 0.08, // HSSD 6.1.2
			AltitudeMax: 0.20,
			// HSSD 6.1.2.2: three pings on an object of a metre.
			PingsPerMetre: 3,
			Within:        10, // FPM 1.5.7.1.2, towed, from memory
		},
		{
			ID: "c13_2005", Name: "IHO C-13 Manual on Hydrography, chapter 4", Edition: "first edition, 2005, with corrections",
			Coverage: 1, Nadir: true, // 2.3.3.3: spacing at most the range less the gap
			PingsPerMetre: 5,    // 2.3.6: five pings make a mark that can be recognised, here on a metre
			Within:        27.8, // 2.3.10.3: 11.35 m at one sigma, by 2.45
		},
		{
			ID: "s44_6.1.0_1a", Name: "IHO S-44, order 1a", Edition: "6.1.0, October 2022",
			Coverage: 1, Nadir: true, // 3.4 and table 1: feature search of 100 %, planned to find every feature
			PingsPerMetre: 1.5, // three pings (NOAA, as above) on its cube of 2 m
		},
		{
			ID: "s44_6.1.0_special", Name: "IHO S-44, special order", Edition: "6.1.0, October 2022",
			Coverage: 1, Nadir: true,
			PingsPerMetre: 3, // three pings on its cube of 1 m
		},
	}
}

// RulesOf is the rule set of an id.
func RulesOf(id string) (RuleSet, bool) {
	for _, r := range RuleSets() {
		if r.ID == id {
			return r, true
		}
	}
	return RuleSet{}, false
}
