package debrief

import (
	"math"
	"testing"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/simtest"
)

// small is the invented exercise over deeper water, with a desk that has been told
// everything as it is. Errors come in by changing it.
func small(t testing.TB) *exercise.Exercise {
	t.Helper()
	ex := simtest.Small(t)
	ex.Hash, ex.Seabed.Depth = "0123456789abcdef", 16
	simtest.Exact(ex)
	ex.Score = exercise.Score{
		Coverage: 0.95, OffLine: 4, AltitudeMin: 0.08, AltitudeMax: 0.2, PingsPerMetre: 3, Pass: 70,
	}
	return ex
}

// oneLine leaves only the first line in the plan.
func oneLine(ex *exercise.Exercise) *exercise.Exercise {
	ex.Plan.Order = ex.Plan.Order[:1]
	return ex
}

// session is a session with its witness.
type session struct {
	*sim.Session
	Truth *sim.Witness
}

// report is the debrief of a session.
func report(s *session) Report { return Make(s.Session, s.Truth) }

// start sets a session up with the mate in charge.
func start(t testing.TB, ex *exercise.Exercise) *session {
	t.Helper()
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	return &session{s, sim.Attend(s)}
}

// run runs a session to its end.
func run(t testing.TB, ex *exercise.Exercise) *session {
	t.Helper()
	s := start(t, ex)
	for !s.Done() {
		s.Advance(600)
	}
	return s
}

// takeUp has somebody look through the lookout's candidates and take up what lies on an
// object, as an honest watcher would.
func takeUp(s *session) {
	for i := range s.Desk.Contacts {
		c := &s.Desk.Contacts[i]
		for k := range s.Exercise.Seabed.Objects {
			x, y := nearestOfPlan(&s.Exercise.Seabed.Objects[k], c.X, c.Y)
			if math.Hypot(c.X-x, c.Y-y) < 5 {
				c.Class = "debris"
			}
		}
	}
}
