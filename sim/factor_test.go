package sim_test

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sim/simtest"
	"dryline/sim/survey"
)

// ball is the small exercise run along its first line, with a ball to see.
func ball(t *testing.T, at seabed.Point, reversed bool, factor float64) *session {
	t.Helper()
	ex := simtest.Ball(t, at, reversed)
	ex.Desk.CatenaryFactor += factor
	s := begin(t, ex)
	s.AttachMate()
	for !s.Done() {
		s.Advance(1000)
	}
	return s
}

// A wrong catenary factor moves everything along the track by the error of the
// layback, and lines run opposite ways disagree by twice that (common practice,
// no source; exact geometry). With the factor put right they agree. All within a
// cell of the mosaic.
func TestWrongFactorShowsOnReciprocalLines(t *testing.T) {
	at := seabed.Point{X: 125, Y: 290}
	for _, wrong := range []float64{-0.15, 0} {
		var y [2]float64
		var off float64 // metres of layback
		for i, reversed := range []bool{false, true} {
			s := ball(t, at, reversed, wrong)
			set := s.Desk.Settings
			p := s.Desk.Lines[0].Pings
			fix := p[len(p)/2].Fix
			right, err := survey.Layback(fix.CableOut, fix.Depth, set.SheaveHeight, set.CatenaryFactor-wrong, set.AntennaToTow)
			if err != nil {
				t.Fatal(err)
			}
			off = fix.Layback - right
			var ok bool
			if _, y[i], ok = brightest(s.Desk, at, 8); !ok {
				t.Fatal("nothing bright near the ball")
			}
		}
		// Too little layback puts the fish, and with it the ball, too far ahead.
		cell := simtest.Small(t).Desk.MosaicCell
		if got := y[1] - y[0]; math.Abs(got-2*off) > cell {
			t.Errorf("factor %+.2f: the two lines disagree by %.2f m, want %.2f", wrong, got, 2*off)
		}
		if wrong != 0 && math.Abs(off) < 2 {
			t.Errorf("a factor %+.2f wrong moves the fish by %.2f m: no test", wrong, off)
		}
	}
}
