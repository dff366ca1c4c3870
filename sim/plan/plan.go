package plan

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"dryline/vessel"
)

// Kind says what a line is for.
type Kind string

// The kinds.
const (
	Main   Kind = "main"
	Edge   Kind = "edge"   // outside of a limit of the area
	Second Kind = "second" // of the set between the first
	Across Kind = "cross"
)

// Line is a survey line, in the direction it is run.
type Line struct {
	Name string
	Kind Kind
	A, B Point
}

// Length is that of the line, metres.
func (l *Line) Length() float64 { return math.Hypot(l.B.X-l.A.X, l.B.Y-l.A.Y) }

func (l *Line) bearing() float64 { return math.Atan2(l.B.X-l.A.X, l.B.Y-l.A.Y) }

// on is the point so far along the line from its start.
func (l *Line) on(s float64) Point {
	sin, cos := math.Sincos(l.bearing())
	return Point{l.A.X + s*sin, l.A.Y + s*cos}
}

// Turn is the way from one line to the next: where the run-out ends, to where the
// run-in begins.
type Turn struct {
	After, Before int // lines, in the order they are run
	Path          vessel.Path
	Unsafe        string // why; empty if nothing speaks against it
}

// Choice is a direction that was looked at.
type Choice struct {
	Why     string // fewest turns, along the stream, ...
	Bearing float64
	Lines   int
	Line    float64 // length of lines, metres
	Between float64 // and between them
	Time    float64 // seconds
	Taken   bool
}

// Plan is a plan, lines in the order they are run.
type Plan struct {
	Spec    *Spec
	Bearing float64 // of the lines, 0 to pi; of a corridor that of its longest leg
	Spacing float64
	Gap     float64
	Choices []Choice
	Because string // why this direction

	Lines   []Line
	Turns   []Turn
	Turn    vessel.Turn
	Pattern int     // neighbouring lines of the order lie so many rows apart; 1 is one after the other, 0 chosen line by line for turns that are safe
	RunIn   float64 // besides the layback, metres
	RunOut  float64
	Layback float64 // at the mean depth, fish from the vessel's origin, metres
	Cable   float64 // out at the mean depth, metres
	Start   float64 // cable out to begin with: for the shallowest of the first run-in, metres
	MeanLow float64 // mean depth along the lines, at low water

	TurnHaul float64 // share of the cable to haul in before every turn
	TurnLow  float64 // least height of the fish over the floor in a turn, so hauled, metres; +Inf without turns

	LineLength float64
	Between    float64 // from the ends of lines to the starts of the next: run-outs, turns, run-ins
	Time       float64 // of both, seconds

	Covered Coverage
	Checks  []Check
	Places  []Place // along the lines and through the turns, of a plan that was not made quickly
}

// Make makes a plan. The error holds a line for each fault of the spec.
func Make(s *Spec) (*Plan, error) {
	if faults := s.Check(); len(faults) > 0 {
		return nil, errors.New(strings.Join(faults, "\n"))
	}
	c, err := newCrew(s)
	if err != nil {
		return nil, err
	}
	var best *Plan
	var choices []Choice
	directions := s.directions()
	for _, d := range directions {
		p := c.lay(d.bearing)
		if c.off != nil {
			return nil, c.off
		}
		if len(p.Lines) == 0 {
			continue
		}
		choices = append(choices, Choice{Why: d.why, Bearing: p.Bearing, Lines: len(p.Lines), Line: p.LineLength, Between: p.Between, Time: p.Time})
		p.Because = d.why
		if best == nil || d.rank > best.rank(directions) || d.rank == best.rank(directions) && p.Time < best.Time-1 {
			best = p
		}
	}
	if best == nil {
		return nil, errors.New("no line can be run: everywhere the water is too shallow, unknown, or to be kept clear of")
	}
	for i := range choices {
		choices[i].Taken = choices[i].Why == best.Because
	}
	best.Choices = choices
	best.Because = s.because(best, choices)
	best.Checks = c.check(best)
	best.Start = c.start(best)
	best.Covered = cover(best)
	if !s.Quick {
		best.Places = c.places(best)
	}
	return best, c.off
}

// rank is that of the direction a plan took.
func (p *Plan) rank(all []direction) int {
	for _, d := range all {
		if d.why == p.Because {
			return d.rank
		}
	}
	return 0
}

// Good reports whether every check holds.
func (p *Plan) Good() bool {
	for _, c := range p.Checks {
		if c.State == Fails {
			return false
		}
	}
	return true
}

// Count is how many lines are of a kind.
func (p *Plan) Count(k Kind) (n int) {
	for i := range p.Lines {
		if p.Lines[i].Kind == k {
			n++
		}
	}
	return n
}

// names gives lines names that sort: a letter for the set, the number of the part if
// there is more than one, the row by its place across, a letter for a piece of a row.
func names(rows []*row, parts int) {
	width := len(fmt.Sprint(len(rows)))
	for _, r := range rows {
		set := map[Kind]string{Main: "A", Edge: "A", Second: "B", Across: "X"}[r.kind]
		if parts > 1 {
			set += fmt.Sprint(r.part+1) + "-"
		}
		name := fmt.Sprintf("%s%0*d", set, max(width, 2), r.number)
		for i := range r.lines {
			r.lines[i].Name = name
			if len(r.lines) > 1 {
				r.lines[i].Name += string(rune('a' + min(i, 25)))
				if i > 25 {
					r.lines[i].Name += fmt.Sprint(i)
				}
			}
		}
	}
}
