package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryline/sim/survey"
)

// pingsWanted is the pings a metre that show an object of a metre on one pass (NOAA
// Hydrographic Surveys Specifications and Deliverables 2021, 6.1.2.2).
const pingsWanted = 3.0

// metadata fills in what IHO S-44 6.1.0, 6.2 asks every survey to say of itself. What this
// one does not know it says it does not.
func (in *Input) metadata(s *Survey, holidays int) {
	b, d := in.Brief, in.Desk
	say := func(name, format string, values ...any) {
		s.Metadata = append(s.Metadata, Fact{name, fmt.Sprintf(format, values...)})
	}
	say("Survey type", "side-scan sonar search; no depths were sounded")
	var channels []string
	for _, c := range b.Sonar.Channels {
		channels = append(channels, fmt.Sprintf("%g kHz", c.Frequency/1000))
	}
	say("Technique", "towed side-scan sonar, %s, range scale %g m; %s", strings.Join(channels, " and "), d.Recorder.RangeScale, placedBy(d))
	say("Order achieved", "none claimed: a search with side scan measures no depths, and the order of a survey takes them (S-44, 3.4)")
	say("Horizontal datum", "WGS 84, UTM zone %d (EPSG:%d); epoch not stated", b.Place.Grid.Zone(), b.Place.Grid.EPSG())
	if tide, reduced := d.Review.Knob(survey.KnobTide); reduced {
		say("Vertical datum", "depths over contacts are reduced by %.2f m of water over the datum, as the surveyor entered", tide)
	} else {
		say("Vertical datum", "none: no tide was entered, depths over contacts are below the water as it stood")
	}
	say("Vertical uncertainty (95 %)", "%s", vertical(s))
	say("Horizontal uncertainty (95 %)", "%.1f m for a contact %s", s.Radius, s.BudgetAt)
	size, why := detection(s)
	say("Feature detection", "%s: %s", size, why)
	say("Feature search", "%s %% of %.0f m² seen once, %s %% on two lines or more, by where the desk believes every ping lay; %s", survey.Percent(s.Once, 1), s.Area, survey.Percent(s.Twice, 1), plural(holidays, "holiday"))
	say("Bathymetric coverage", "none")
	from, to := in.utc(0), in.utc(in.Now)
	say("Dates", "%s to %s UTC", from.Format("2006-01-02 15:04"), to.Format("2006-01-02 15:04"))
	surveyor := in.Surveyor
	if surveyor == "" {
		surveyor = "not stated"
	}
	say("Surveyor", "%s", surveyor)
	say("Data owner", "none: synthetic training data, %s", in.Licence)
	say("Grid", "mosaic of cells of %g m, whole in UTM; levelled amplitude, no depths", in.Cell)
	say("Density", "%s", density(s))
	say("Constraints", "%s", in.Caution)
}

func placedBy(d *survey.Desk) string {
	set := d.Settings
	if w := d.Worked; w != nil {
		set = d.Reviewed(&w.Review, math.Inf(1))
	}
	by := map[survey.Position]string{
		"": "layback along the track made good", survey.ByTrack: "layback along the track made good", survey.ByHeading: "layback along the ship's heading",
		survey.ByBeacon: "acoustic beacon", survey.ByFiltered: "layback corrected by the acoustic beacon",
	}[set.Position]
	return "fish placed by " + by
}

func vertical(s *Survey) string {
	worst := 0.0
	for _, c := range s.Contacts {
		if c.Depth.Known {
			worst = max(worst, 1.96*c.Depth.Sigma)
		}
	}
	if worst == 0 {
		return "not determined: no depth over a contact was estimated"
	}
	return fmt.Sprintf("%.1f m at worst for estimates over contacts, which are never least depths", worst)
}

// detection is the size that lines which count could show by their pings alone.
func detection(s *Survey) (size, why string) {
	least := math.Inf(1)
	for _, r := range s.Runs {
		if r.Rejected == "" && r.Pings > 0 {
			least = min(least, r.Density)
		}
	}
	switch {
	case math.IsInf(least, 1):
		return "not determined", "no line counts"
	case least >= pingsWanted:
		return "1 m by the pings", fmt.Sprintf("at least %.1f pings a metre on every line that counts (3 wanted); the system's own calibration and the height band say how far that may be believed", least)
	}
	return fmt.Sprintf("%.1f m by the pings", pingsWanted/least), fmt.Sprintf("%.1f pings a metre on the poorest line that counts (3 wanted for 1 m)", least)
}

func density(s *Survey) string {
	low, high := math.Inf(1), 0.0
	for _, r := range s.Runs {
		if r.Pings > 0 {
			low, high = min(low, r.Density), max(high, r.Density)
		}
	}
	if high == 0 {
		return "no line was logged"
	}
	return fmt.Sprintf("%.1f to %.1f pings a metre along the lines", low, high)
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// lacking lists what was not achieved.
func (in *Input) lacking(s *Survey, holidays int) []string {
	b, d := in.Brief, in.Desk
	var out []string
	say := func(is bool, format string, values ...any) {
		if is {
			out = append(out, fmt.Sprintf(format, values...))
		}
	}
	var notRun []string
	all := b.All()
	for _, run := range b.Plan.Order {
		l := &all[run.Line]
		share := survey.Share(d.Lines, l.Name, l.Track(false))
		if share >= survey.Whole || slices.ContainsFunc(notRun, func(n string) bool { return strings.HasPrefix(n, l.Name+" (") }) {
			continue
		}
		notRun = append(notRun, fmt.Sprintf("%s (%s %% logged)", l.Name, survey.Percent(100*share, 0)))
	}
	say(len(notRun) > 0, "Lines not logged in whole: %s.", strings.Join(notRun, ", "))
	wanted := 100 * b.Score.Coverage
	if wanted <= 0 {
		wanted = 100
	}
	say(s.Once < wanted, "Coverage: %s %% of the area was seen, and %g %% is wanted.", survey.Percent(s.Once, 1), wanted)
	say(holidays > 0, "%s of %.0f m² in all could each hide an object of a metre.", plural(holidays, "holiday"), s.HolidayArea)
	graded := false
	for _, r := range s.Runs {
		name := fmt.Sprintf("Run %d, line %s", r.Number, r.Line)
		graded = graded || !math.IsNaN(r.Bottom)
		say(r.Rejected != "", "%s counts for nothing: %s.", name, r.Rejected)
		if r.Rejected != "" || r.Pings == 0 {
			continue
		}
		say(r.InBand < 90, "%s: the fish was in the wanted height band on %.0f %% of pings.", name, math.Floor(r.InBand))
		say(r.Density < pingsWanted, "%s: %.1f pings a metre, and 3 are wanted for an object of a metre.", name, r.Density)
		say(r.Faulted > 0, "%s: the position of %s could not be trusted.", name, plural(r.Faulted, "ping"))
		say(r.Locked < 98, "%s: the bottom was found in %.0f %% of pings.", name, math.Floor(r.Locked))
		say(r.Bottom < 0.5, "%s: the record bears the bottom track out poorly (grade %.2f of 1).", name, r.Bottom)
	}
	undecided, open := 0, 0
	for i := range s.Contacts {
		switch a := s.Contacts[i].Action; {
		case a == "":
			undecided++
		case a == survey.Investigate || a == survey.Rerun:
			open++
		}
	}
	say(undecided > 0, "%s nobody has decided on.", plural(undecided, "contact"))
	say(open > 0, "%s still to be investigated or run again.", plural(open, "contact"))
	say(d.Calibrated.Layback == nil, "The layback was not calibrated: the error of the fish's place is a rule of thumb.")
	say(d.Calibrated.System == nil, "The system was not calibrated on an object: that it finds one of a metre is not shown.")
	if c := d.Calibrated.System; c != nil {
		say(!c.Met, "The calibration of the system is not met.")
	}
	say(in.Ended != "" && in.Ended != "finished", "The session was %s.", in.Ended)
	_, reduced := d.Review.Knob(survey.KnobTide)
	say(!reduced, "No tide was entered: depths are not reduced.")
	return append(out, "No least depth was found over any contact: that takes another system (S-44, 3.4).",
		"Nothing here shows that any ground is free of hazards: what was not found may be there.")
}
