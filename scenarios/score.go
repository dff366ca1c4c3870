package scenarios

import (
	"dryline/sim/exercise"
	"dryline/sim/mark"
)

type scoreSection struct {
	Rules         string         `key:"rules" enum:"rules" absent:"none: the figures below" doc:"Published rules whose figures stand for those that are not given here, in the edition of the name."`
	Area          [][2]float64   `key:"area" items:"3,200" unit:"m" min:"-10000" max:"15000" absent:"the lines' own strip" doc:"Corners of the area to be covered, east and north."`
	Coverage      float64        `key:"coverage_percent" unit:"percent" min:"0" max:"100" default:"95" doc:"Share of the area wanted, looked at in a way that counts."`
	Nadir         bool           `key:"nadir_needs_neighbour" default:"false" doc:"Whether the strip under the fish counts only where another line looks at it."`
	OffLine       float64        `key:"off_line_m" unit:"m" min:"0.1" max:"200" default:"4" doc:"Largest distance of the fish off line wanted."`
	AltitudeMin   float64        `key:"altitude_min_percent" unit:"percent" min:"0" max:"100" default:"8" doc:"Lowest height of the fish wanted, of the range scale."`
	AltitudeMax   float64        `key:"altitude_max_percent" unit:"percent" min:"0" max:"100" default:"20" doc:"Greatest height of the fish wanted, of the range scale."`
	PingsPerMetre float64        `key:"pings_per_metre" min:"0" max:"100" default:"3" doc:"Fewest pings wanted to a metre of track."`
	ContactWithin float64        `key:"contact_within_m" unit:"m" min:"1" max:"100" default:"10" doc:"How far a contact may be from its object: the survey's stated uncertainty of position, 95 percent."`
	Beta          float64        `key:"beta" min:"0.25" max:"4" default:"1" doc:"How much more an object found counts than a contact that is nothing."`
	Pass          float64        `key:"pass" min:"0" max:"100" default:"70" doc:"Score needed to pass."`
	Weights       weightsSection `key:"weights" doc:"Points of each item, in proportion; a third for what is reported if left out, and that to coverage where nothing lies to be found."`
	Gates         gatesSection   `key:"gates" doc:"What fails the exercise whatever the points."`
}

type weightsSection struct {
	Coverage   float64 `key:"coverage" min:"0" max:"100" default:"0" doc:"Ground looked at in a way that counts."`
	Lines      float64 `key:"lines" min:"0" max:"100" default:"0" doc:"Planned lines logged."`
	OffLine    float64 `key:"off_line" min:"0" max:"100" default:"0" doc:"The fish on its line."`
	Height     float64 `key:"height" min:"0" max:"100" default:"0" doc:"The fish at its height."`
	Pings      float64 `key:"pings" min:"0" max:"100" default:"0" doc:"Pings to a metre."`
	Contacts   float64 `key:"contacts" min:"0" max:"100" default:"0" doc:"Objects reported, and nothing else."`
	Dimensions float64 `key:"dimensions" min:"0" max:"100" default:"0" doc:"How large they were said to be."`
	Position   float64 `key:"position" min:"0" max:"100" default:"0" doc:"Where the desk puts the ground."`
	Clear      float64 `key:"fish_clear" min:"0" max:"100" default:"0" doc:"The fish clear of everything."`
}

type gatesSection struct {
	Coverage *float64 `key:"coverage_percent" unit:"percent" min:"0" max:"100" absent:"eight tenths of what is wanted" doc:"Least share of the area looked at in a way that counts."`
	Aground  float64  `key:"aground_s" unit:"s" min:"0.1" max:"3600" default:"2" doc:"How long the fish may touch the floor or an object, in all."`
	Turn     float64  `key:"turn_percent" unit:"percent" min:"0.1" max:"100" default:"5" doc:"How much of what is logged may be from turns."`
	RubTest  bool     `key:"rub_test" default:"false" doc:"Whether both sides are to be rubbed, one after the other, before the first line is logged."`
	Home     float64  `key:"recovered_m" unit:"m" min:"0" max:"3000" default:"0" doc:"Most cable that may be out when the exercise ends, so that the fish is brought home; 0 is any."`
	Report   bool     `key:"contact_report" default:"true" doc:"Whether contacts are to be reported, where there is anything to report."`
}

func (s scoreSection) score(c *checker) exercise.Score {
	c.polygon("score.area", s.Area)
	const low, high = "score.altitude_min_percent", "score.altitude_max_percent"
	if c.sound(low, high) && s.AltitudeMin >= s.AltitudeMax {
		c.fault(low, c.number(s.AltitudeMin), "is not below altitude_max_percent", "less than "+c.number(s.AltitudeMax)+" percent")
	}
	out := exercise.Score{
		Area: points(s.Area), Coverage: s.Coverage / hundred, Nadir: s.Nadir, OffLine: s.OffLine,
		AltitudeMin: s.AltitudeMin / hundred, AltitudeMax: s.AltitudeMax / hundred,
		PingsPerMetre: s.PingsPerMetre, ContactWithin: s.ContactWithin, Beta: s.Beta, Pass: s.Pass,
		Gates: exercise.Gates{Aground: s.Gates.Aground, Turn: s.Gates.Turn / hundred, Report: s.Gates.Report,
			RubTest: s.Gates.RubTest, Recovered: s.Gates.Home},
	}
	s.byRules(c, &out)
	if g := s.Gates.Coverage; g != nil {
		out.Gates.Coverage = *g / hundred
		if c.sound("score.coverage_percent", "score.gates.coverage_percent") && *g > s.Coverage {
			c.fault("score.gates.coverage_percent", c.number(*g), "is above coverage_percent", "at most "+c.number(s.Coverage)+" percent")
		}
	}
	if c.given("score.weights") {
		w := s.Weights
		out.Weights = mark.Weights{
			mark.Coverage: w.Coverage, mark.Lines: w.Lines, mark.OffLine: w.OffLine, mark.Height: w.Height, mark.Pings: w.Pings,
			mark.Contacts: w.Contacts, mark.Dimensions: w.Dimensions, mark.Position: w.Position, mark.Clear: w.Clear,
		}
		sum := 0.0
		for _, v := range out.Weights {
			sum += v
		}
		if sum == 0 {
			c.fault("score.weights", "all of them 0", "gives no points", "one of them above 0")
		}
	}
	return out
}

// byRules fills in what published rules ask for and the file does not say.
func (s scoreSection) byRules(c *checker, out *exercise.Score) {
	r, ok := mark.RulesOf(s.Rules)
	if !ok {
		return
	}
	out.Rules = r.ID
	take := func(key string, dst *float64, v float64) {
		if v > 0 && !c.given("score."+key) {
			*dst = v
		}
	}
	take("coverage_percent", &out.Coverage, r.Coverage)
	take("altitude_min_percent", &out.AltitudeMin, r.AltitudeMin)
	take("altitude_max_percent", &out.AltitudeMax, r.AltitudeMax)
	take("pings_per_metre", &out.PingsPerMetre, r.PingsPerMetre)
	take("contact_within_m", &out.ContactWithin, r.Within)
	if !c.given("score.nadir_needs_neighbour") {
		out.Nadir = r.Nadir
	}
}

// ruleSets are the ids of published rules.
func ruleSets() []string {
	var ids []string
	for _, r := range mark.RuleSets() {
		ids = append(ids, r.ID)
	}
	return ids
}
