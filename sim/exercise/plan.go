package exercise

import (
	"slices"

	"dryline/seabed"
	"dryline/vessel"
	"dryline/vessel/nav/geodesy"
)

// Line is a survey line, run from A to B.
type Line struct {
	Name string
	A, B seabed.Point
}

// Track returns the line as the autopilot follows it; reversed from B to A.
func (l Line) Track(reversed bool) geodesy.Track {
	if reversed {
		return geodesy.Track{AX: l.B.X, AY: l.B.Y, BX: l.A.X, BY: l.A.Y}
	}
	return geodesy.Track{AX: l.A.X, AY: l.A.Y, BX: l.B.X, BY: l.B.Y}
}

// Plan tells the mate how to run the lines unattended.
type Plan struct {
	Order     []Run
	Speed     float64 // over ground, m/s
	CableOut  float64 // at the start, metres
	RunIn     float64 // straight before the start of a line, metres
	RunOut    float64 // beyond its end, metres, besides the layback
	Lookahead float64 // of the line-of-sight guidance, metres

	Turn       vessel.Turn // from line to line
	TurnRadius float64     // metres
	TurnHaul   float64     // share of the cable hauled in before a turn, in which the fish sinks

	// Altitude held by winch, from the fish altimeter; 0 leaves the cable alone.
	Altitude     float64 // metres
	AltitudeBand float64 // change the cable only when further off than this, metres

	TimeLimit float64 // seconds after which the exercise ends whatever is left
}

// Run is one line of the plan in the direction it is run.
type Run struct {
	Line     int // index in [Exercise.All]
	Reversed bool
}

// All are the lines of the exercise, and after them those that were added in the session.
func (ex *Exercise) All() []Line { return all(ex.Lines, ex.Added) }

// All are the lines as [Exercise.All] has them.
func (b *Brief) All() []Line { return all(b.Lines, b.Added) }

// all joins lines. They are asked for at every tick, and as a rule none was added: what is returned is not to be
// changed.
func all(given, added []Line) []Line {
	if len(added) == 0 {
		return slices.Clip(given)
	}
	return slices.Concat(given, added)
}

// ToRun are the lines to be run, each once: those of the plan in its order, then those that
// were added besides.
func (b *Brief) ToRun() []Line { return ToRun(b.Plan.Order, b.All(), len(b.Lines)) }

// SailAdded has the lines that were added run in place of those given, in their order and each from A to B.
func (b *Brief) SailAdded(runIn, runOut float64) {
	b.Own = true
	b.Plan = b.Plan.own(len(b.Lines), len(b.Added), runIn, runOut)
}

// SailAdded does to the exercise what [Brief.SailAdded] does to its brief. What is to be covered stays what
// the lines given were to cover.
func (ex *Exercise) SailAdded(runIn, runOut float64) {
	ex.setAside()
	ex.Plan = ex.Plan.own(len(ex.Lines), len(ex.Added), runIn, runOut)
}

// Sailed are the lines of the exercise and those that were added, without any that were set aside for lines of one's own.
func (ex *Exercise) Sailed() []Line { return sailed(ex.Plan.Order, ex.Lines, ex.Added) }

// Sailed are the lines as [Exercise.Sailed] has them.
func (b *Brief) Sailed() []Line { return sailed(b.Plan.Order, b.Lines, b.Added) }

func sailed(order []Run, given, added []Line) []Line {
	if len(added) > 0 && len(order) > 0 && order[0].Line >= len(given) {
		return slices.Clip(added)
	}
	return all(given, added)
}

// own is the plan with another order: lines from one on, so many.
func (p Plan) own(from, n int, runIn, runOut float64) Plan {
	p.Order, p.RunIn, p.RunOut = nil, runIn, runOut
	for i := range n {
		p.Order = append(p.Order, Run{Line: from + i})
	}
	return p
}

// ToRun are the lines to be run of all there are, of which so many were given: see [Brief.ToRun].
func ToRun(order []Run, all []Line, given int) (lines []Line) {
	had := make([]bool, len(all))
	take := func(i int) {
		if i < len(all) && !had[i] {
			had[i] = true
			lines = append(lines, all[i])
		}
	}
	for _, run := range order {
		take(run.Line)
	}
	for i := given; i < len(all); i++ {
		take(i)
	}
	return lines
}

// Line finds a line by its name: one of the exercise, or one that was added to it in
// the session.
func (ex *Exercise) Line(name string) (Line, bool) { return find(name, ex.Lines, ex.Added) }

// Line finds a line as [Exercise.Line] does.
func (b *Brief) Line(name string) (Line, bool) { return find(name, b.Lines, b.Added) }

func find(name string, lists ...[]Line) (Line, bool) {
	for _, lines := range lists {
		if i := LineNamed(lines, name); i >= 0 {
			return lines[i], true
		}
	}
	return Line{}, false
}

// LineNamed returns the place of the line of that name, or -1.
func LineNamed(lines []Line, name string) int {
	for i := range lines {
		if lines[i].Name == name {
			return i
		}
	}
	return -1
}
