package sim

import (
	"math"

	"dryline/seabed"
)

// Truth is what really happened, kept for the debrief. The desk never sees it.
type Truth struct {
	Pings      []TruePing // of every logged ping, in order
	Seen       [][]Sight  // per object and then per pipeline, the logged pings that lit it
	Happenings []Happening
}

// Count is how often a mishap happened.
func (t *Truth) Count(what Mishap) int {
	n := 0
	for _, h := range t.Happenings {
		if h.What == what {
			n++
		}
	}
	return n
}

// TruePing is where the fish truly was at a logged ping. A survey keeps one for
// each, so it holds no more than the debrief asks for.
type TruePing struct {
	Number   uint64
	X, Y, Z  float64 // on the grid, metres; Z is 0 at the mean level of the water
	Heading  float64 // grid bearing, radians
	Pitch    float64 // nose up positive, radians
	Altitude float64 // above the floor or object below it, metres
}

// Sight is one logged ping that lit an object in the main lobe.
type Sight struct {
	Number uint64
	Line   int     // index into the desk's lines, in the order they were run
	Range  float64 // over the ground to its middle, or to the nearest point of a pipeline, metres
}

func (t *Truth) begin(s *Session) {
	t.Seen = make([][]Sight, len(s.Exercise.Seabed.Objects)+len(s.Exercise.Seabed.Pipelines))
}

// record notes a logged ping and the objects it lit.
func (t *Truth) record(s *Session, e *event) {
	p := &e.pose
	t.Pings = append(t.Pings, TruePing{
		Number: e.number, X: p.X, Y: p.Y, Z: p.Z, Heading: p.Heading, Pitch: p.Pitch,
		Altitude: p.Z - s.world.HeightAt(p.X, p.Y),
	})
	for side := range e.echo {
		for _, o := range e.echo[side].Lit {
			at := whereIs(&s.Exercise.Seabed, int(o-1), p.X, p.Y)
			t.Seen[o-1] = append(t.Seen[o-1], Sight{
				Number: e.number, Line: len(s.Desk.Lines),
				Range: math.Hypot(at.X-p.X, at.Y-p.Y),
			})
		}
	}
}

// whereIs is where the object of an index is met from (x, y). Pipelines are
// numbered after the objects.
func whereIs(spec *seabed.Spec, index int, x, y float64) seabed.Point {
	if n := len(spec.Objects); index >= n {
		return spec.Pipelines[index-n].Nearest(x, y)
	}
	return spec.Objects[index].At
}
