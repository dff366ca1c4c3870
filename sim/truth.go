package sim

import (
	"math"

	"dryline/seabed"
	"dryline/sonar"
)

// Truth is what really happened, kept for the debrief. The desk never sees it.
type Truth struct {
	Pings      []TruePing // of every logged ping, in order
	Seen       [][]Sight  // per object and then per pipeline, the logged pings that lit it
	Happenings []Happening
	Track      []TruePoint

	nextPoint float64
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

// TruePing is where the fish truly was at a logged ping.
type TruePing struct {
	Number   uint64
	Time     float64
	Pose     sonar.Pose
	Altitude float64 // above the floor or object below it, metres
}

// Sight is one logged ping that lit an object in the main lobe.
type Sight struct {
	Number uint64
	Line   int     // index into the desk's lines, in the order they were run
	Range  float64 // over the ground to its middle, or to the nearest point of a pipeline, metres
}

// TruePoint is the vessel and the fish once a second.
type TruePoint struct{ Time, VesselX, VesselY, FishX, FishY, FishDepth float64 }

func (t *Truth) begin(s *Session) {
	t.Seen = make([][]Sight, len(s.Exercise.Seabed.Objects)+len(s.Exercise.Seabed.Pipelines))
}

// follow notes where vessel and fish are, once a second.
func (t *Truth) follow(s *Session) {
	if s.Now() < t.nextPoint {
		return
	}
	t.nextPoint += 1
	g := s.gear
	t.Track = append(t.Track, TruePoint{s.Now(), s.hull.X, s.hull.Y, g.X, g.Y, g.Depth})
}

// record notes a logged ping and the objects it lit.
func (t *Truth) record(s *Session, e *event) {
	t.Pings = append(t.Pings, TruePing{
		Number: e.number, Time: e.fix.Time, Pose: e.pose,
		Altitude: e.pose.Z - s.world.HeightAt(e.pose.X, e.pose.Y),
	})
	for side := range e.echo {
		for _, o := range e.echo[side].Lit {
			at := whereIs(&s.Exercise.Seabed, int(o-1), e.pose.X, e.pose.Y)
			t.Seen[o-1] = append(t.Seen[o-1], Sight{
				Number: e.number, Line: len(s.Desk.Lines),
				Range: math.Hypot(at.X-e.pose.X, at.Y-e.pose.Y),
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
