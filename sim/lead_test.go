package sim_test

import (
	"math"
	"testing"

	"dryline/sim"
	"dryline/sim/simtest"
	"dryline/sim/survey"
)

// With perfect instruments the desk takes an echo for the very ground it came from,
// whichever way the line is run. At 8 knots and 150 m the fish runs 0.41 m while an
// echo is under way: sent from p0 and heard at p1, the sound has gone 2R in all, and
// both beams look square to the track, so that the ground answered for lies abreast of
// the middle of p0 and p1 (geometry), at sqrt(R^2 - h^2 - (p1-p0)^2/4) across.
func TestTheSwathLiesWhereTheEchoCameFrom(t *testing.T) {
	ex := simtest.Small(t)
	ex.Lines[0].A.Y, ex.Lines[0].B.Y, ex.Lines[1].A.Y, ex.Lines[1].B.Y = 150, 450, 150, 450
	ex.Sonar.RangeScale, ex.Plan.Speed = 150, 8*0.514444
	ex.Seabed.Objects = nil
	simtest.Exact(ex)
	s, err := sim.New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	points := 0
	worst := map[bool]float64{}
	s.Observe(sim.Observer{Truth: true, Ping: func(p *sim.Ping) {
		if p.Line == "" || p.Number%7 > 0 || (p.Truth.Pose.Y > 300) != (math.Cos(p.Truth.Pose.Heading) > 0) {
			return // in the first half of a line the fish may not have settled yet
		}
		at := p.Truth.Pose
		c := s.Engine().SoundSpeed()
		height := at.Z + ex.Seabed.Depth
		for _, share := range []float64{0.2, 0.6, 0.95} {
			slant := share * ex.Sonar.RangeScale
			run := at.Speed * 2 * slant / c
			across := math.Sqrt(slant*slant - height*height - run*run/4)
			sin, cos := math.Sincos(at.Heading)
			for _, starboard := range []bool{false, true} {
				side := across
				if !starboard {
					side = -across
				}
				wantX, wantY := at.X+run/2*sin+side*cos, at.Y+run/2*cos-side*sin
				x, y, ok := survey.GroundAt(p.Fix, height, starboard, slant)
				if !ok {
					t.Fatalf("no ground at %g m", slant)
				}
				points++
				north := cos > 0
				worst[north] = max(worst[north], math.Abs((x-wantX)*sin+(y-wantY)*cos))
			}
		}
	}})
	s.AttachMate()
	for !s.Done() {
		s.Advance(500)
	}
	s.Close("finished")
	t.Logf("%d points, at most %.4f m north and %.4f m south", points, worst[true], worst[false])
	if points < 200 || len(worst) != 2 {
		t.Fatalf("%d points on %d directions, want 200 on 2", points, len(worst))
	}
	for north, off := range worst {
		if off > 0.02 {
			t.Errorf("north %v: ground laid %.3f m along the track from where it is, want 0.02", north, off)
		}
	}
}
