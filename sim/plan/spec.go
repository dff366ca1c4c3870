package plan

import (
	"fmt"
	"math"

	"dryline/vessel"
	"dryline/vessel/tow"
)

// Ground tells what is known of the depth.
type Ground interface {
	// DepthAt is the depth below the still water, metres, and whether it is known there.
	DepthAt(x, y float64) (depth float64, known bool)
}

// KeepOut is a place the tow must stay clear of: a path (a point, a cable) or all that a ring encloses.
type KeepOut struct {
	Name   string
	Path   []Point
	Ring   bool    // the path encloses it
	Radius float64 // kept clear about it, metres
}

// distance is how far a place is from it, metres, 0 inside.
func (k *KeepOut) distance(p Point) float64 {
	if k.Ring && inside(k.Path, p) {
		return 0
	}
	d := math.Inf(1)
	n := len(k.Path)
	for i, a := range k.Path {
		b := a
		if i+1 < n {
			b = k.Path[i+1]
		} else if k.Ring {
			b = k.Path[0]
		}
		t, dx, dy := 0.0, b.X-a.X, b.Y-a.Y
		if l := dx*dx + dy*dy; l > 0 {
			t = min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l, 0), 1)
		}
		d = min(d, math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy))
	}
	return d
}

// Spec says what is to be surveyed, with what, and how.
type Spec struct {
	Parts []Part // an area; or
	Route []Point
	Half  float64 // the corridor reaches so far to either side of the route, metres

	Ground   Ground
	KeepOuts []KeepOut
	LowWater float64 // how far the lowest water stands below the still water, metres

	Range    float64 // range scale, metres
	Height   float64 // of the fish over the floor, metres
	Gap      float64 // next to the fish, not relied upon, metres; 0 is GapShare of the range
	Spacing  float64 // of one set of lines, metres; 0 is by Overlap and Nadir
	Overlap  float64 // share of the full swath
	Nadir    Nadir
	Auto     bool    // the direction is chosen
	Bearing  float64 // of the lines, if not
	Edges    bool    // a line more outside of each limit (IHO C-13, chapter 4, 2.3.9.7)
	Cross    float64 // distance between cross-lines, metres; 0 for none
	LeastLow float64 // least and greatest height wanted, shares of the range scale
	MostHigh float64

	Speed      float64 // over ground, m/s
	TurnRadius float64
	Turns      []vessel.Turn // that may be chosen from; nil is all
	RunIn      float64       // besides the layback, metres; negative is by RunInFor
	RunOut     float64       // besides the layback, metres
	Tolerance  float64       // of the fish off line, metres
	Stream     float64       // predicted, m/s
	StreamSet  float64       // grid bearing it sets to

	Gear      tow.Spec
	SheaveUp  float64 // metres
	SheaveAft float64 // of the vessel's origin, metres
	Draft     float64
	UnderKeel float64 // wanted under it, metres
	UnderWake float64 // of the fish below the keel at least, metres

	Apart int          // lines that follow one another lie so many rows apart; 0 is whatever takes least way
	Crest *float64     // grid bearing of the crests of bedforms, if any are known of
	Rough float64      // rms slope that errors of the depths alone make: contours mean nothing below
	Step  func() error // is called from piece to piece of the work, and calls it off by an error; or nil

	Quick bool // try fewer orders where something is unsafe: for those who make many plans

	Placing  Placing
	Accuracy float64 // of contacts wanted, metres at 95 %; 0 wants none

	SoundSpeed func(depth float64) float64 // by depth; nil is the same everywhere
	Pings      float64                     // wanted to a metre
	Sound      float64                     // speed of sound for the ping rate, m/s

	tables cableTables // nil keeps none
}

// Check says what is wrong with a spec, a line for each fault.
func (s *Spec) Check() (faults []string) {
	bad := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }
	if len(s.Parts) == 0 && len(s.Route) < 2 {
		bad("there is neither an area nor a route")
	}
	for i := range s.Parts {
		if s.Parts[i].Square() < 100 {
			bad("part %d of the area is of %.3g m2, want 100 at least", i+1, s.Parts[i].Square())
		}
	}
	if len(s.Route) > 1 && !(s.Half > 0) {
		bad("a route needs the half width of its corridor")
	}
	if !(s.Height > 0 && s.Height < s.Range) {
		bad("a height of %g m does not go with a range scale of %g m", s.Height, s.Range)
	}
	if g := s.gap(); !(g >= 0 && g < s.Range) {
		bad("a gap of %g m leaves nothing of a range scale of %g m", g, s.Range)
	}
	if sp := s.spacing(); !(sp >= 1) {
		bad("the lines would lie %.3g m apart, want 1 m at least", sp)
	}
	if !(s.Cross == 0 || s.Cross >= 1) {
		bad("the cross-lines would lie %.3g m apart, want 1 m at least, or 0 for none", s.Cross)
	}
	return faults
}

func (s *Spec) gap() float64 {
	if s.Gap > 0 {
		return s.Gap
	}
	return s.Range * GapShare
}

// spacing is between neighbouring lines of one set.
func (s *Spec) spacing() float64 {
	if s.Spacing > 0 {
		return s.Spacing
	}
	return SpacingFor(s.Range, s.Overlap, s.gap(), s.Nadir)
}

// reach is how far over the ground a swath goes: the range scale is slant range.
func (s *Spec) reach() float64 { return math.Sqrt(s.Range*s.Range - s.Height*s.Height) }
