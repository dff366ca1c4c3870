package trial

import (
	"dryline/seabed"
)

// Spec says what plans are tried on.
type Spec struct {
	Targets []Target
	Area    []seabed.Point // that they lie in and that is to be covered; empty: the first plan's
	Weather Weather
	Costs   Costs
	Fit     *Fit // nil: no windows of fit weather are looked for

	FalseAlarms float64 // to the square kilometre, by which the detector's threshold is set
	Bare        float64 // bare ground searched for that, km2
}

// Target is a kind and size of thing to be found, and how many lie there in a run.
type Target struct {
	Kind                  string
	Length, Width, Height float64 // metres
	Burial                float64 // share of the height
	Count                 int
}

// Range is drawn from evenly; Low above High goes round by way of 360 where it is a bearing.
type Range struct{ Low, High float64 }

// Weather says what the weather of a run is drawn from, knots and degrees; nil is the plan's
// own.
type Weather struct{ Wind, WindFrom, Current, Set *Range }

// Costs are the planner's own figures. What is nil is not reckoned.
type Costs struct {
	Hour        *float64 // of the boat, in whatever currency
	Fuel        *float64 // litres an hour
	Investigate *float64 // minutes to look at a contact again
	Contacts    *float64 // to the square kilometre, besides targets; nil is the false alarms'
	Checks      *float64 // minutes of calibration and checks a day
	Day         *float64 // hours on the water a day
	Infill      *float64 // percent of the lines' time; nil is what geometry leaves open
}

// Run holds what is drawn for one run, the same for every plan.
type Run struct {
	Number int
	Seed   uint64

	Wind, WindFrom, Current, Set *float64 // knots and degrees; nil is the plan's own
	Objects                      []seabed.Object
	Of                           []int // the entry of [Spec.Targets] that each object is of
}
