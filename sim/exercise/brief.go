package exercise

import (
	"maps"
	"slices"
	"time"

	"dryline/seabed"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/vessel"
	"dryline/vessel/tow"
)

// Brief holds all that a trainee may know of an exercise before it is debriefed: the
// task, the vessel and her gear as their papers have them, what the desk has
// entered, and what is charted. Neither seeds, relief and sediments, nor what
// lies uncharted, nor what ails the instruments.
type Brief struct {
	Name     string
	Title    string
	Briefing string
	Goals    []string
	Start    time.Time
	Place    Place

	East, North float64 // extent of the chart from the origin, metres
	Charted     []Charted
	Depths      Soundings // that are charted; of no sounding where nobody knows the seeds, see [Exercise.Briefed]
	Cast        Cast      // taken before the watch; of no reading where nobody knows the seeds

	Vessel vessel.Spec
	Tow    tow.Spec // without the jitter of the fish
	Beacon bool     // an acoustic beacon is fitted to the fish
	Rates  Rates
	Sonar  SonarBrief

	Lines []Line
	Added []Line // in the session; see [Exercise.Added]
	Own   bool   // these are run, and those given are set aside
	Plan  Plan
	Desk  survey.Settings // as entered when the exercise begins
	Score Score
	Help  Help
}

// Rates are how often the instruments speak, a second; 0 is every tick.
type Rates struct{ GNSS, Heading, FishDepth, Altimeter, Compass, Counter, Beacon float64 }

// SonarBrief is the sonar as its papers have it.
type SonarBrief struct {
	RangeScale float64 // when the exercise begins, metres
	Samples    int     // a side
	Step       sonar.GroundStep
	Channels   []sonar.Channel
}

// Charted is a thing of the chart: an object at a point, or a pipeline along a
// path of two points or more.
type Charted struct {
	Name string
	Kind string
	Path []seabed.Point // metres
}

// Pipeline reports whether it is one.
func (c *Charted) Pipeline() bool { return len(c.Path) > 1 }

// Briefed returns the brief of the exercise on the floor that seeds make, with its charted depths and its cast.
func (ex *Exercise) Briefed(seeds Seeds) *Brief {
	b := ex.Brief()
	b.Depths, b.Cast = ex.Sound(seeds), ex.TakeCast(seeds)
	return b
}

// Brief returns the brief of the exercise. It shares nothing with it that can be
// changed.
func (ex *Exercise) Brief() *Brief {
	in := &ex.Instruments
	b := &Brief{
		Rates: Rates{in.GNSS.Rate, in.Heading.Rate, in.FishDepth.Rate, in.Altimeter.Rate, in.Compass.Rate, in.Counter.Rate, in.Beacon.Rate},
		Name:  ex.Name, Title: ex.Title, Briefing: ex.Briefing, Goals: slices.Clone(ex.Goals), Start: ex.Start, Place: ex.Place,
		East: ex.Seabed.East, North: ex.Seabed.North,
		Vessel: ex.Vessel, Tow: ex.Tow, Beacon: ex.Instruments.Beacon.Fitted,
		Sonar: SonarBrief{RangeScale: ex.Sonar.RangeScale, Samples: ex.Sonar.Samples, Step: ex.Sonar.Step, Channels: slices.Clone(ex.Sonar.Channels)},
		Lines: slices.Clone(ex.Lines), Added: slices.Clone(ex.Added), Plan: ex.Plan, Desk: ex.Desk, Score: ex.Score, Help: ex.Help,
	}
	b.Tow.Jitter = tow.JitterSpec{}
	b.Plan.Order = slices.Clone(ex.Plan.Order)
	b.Score.Area, b.Score.Weights = slices.Clone(ex.Score.Area), maps.Clone(ex.Score.Weights)
	for i := range ex.Seabed.Objects {
		if o := &ex.Seabed.Objects[i]; o.Charted {
			b.Charted = append(b.Charted, Charted{o.Name, o.Kind, []seabed.Point{o.At}})
		}
	}
	for i := range ex.Seabed.Pipelines {
		if p := &ex.Seabed.Pipelines[i]; p.Charted {
			b.Charted = append(b.Charted, Charted{p.Name, "pipeline", slices.Clone(p.Path)})
		}
	}
	return b
}
