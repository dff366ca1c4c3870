package remake_test

import (
	"math"
	"strings"
	"testing"

	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/simtest"
	"dryline/sim/survey"
)

// One object picked on two passes in opposite directions tells the total error along
// the track, and no more; applied, it brings the object within two cells of where it
// truly lies. Picks are taken off each pass's own mosaic.
func TestLaybackCalibratedOnOppositePasses(t *testing.T) {
	s, store := ball(t, func(ex *exercise.Exercise) {
		ex.Desk.CatenaryFactor = 0.8
		ex.Plan.Order = []exercise.Run{{Line: 0}, {Line: 0, Reversed: true}}
	}, nil)
	var number int
	for run, line := range s.Desk.Lines {
		x, y := echo(t, shown(t, s, store, run))
		see, ok := line.Sighting(x, y)
		if !ok {
			t.Fatal("the echo is on no ping")
		}
		ping := line.Pings[see.Index].Number
		if run == 0 {
			simtest.Give(t, s, order.Command{Do: order.Mark, X: x, Y: y, Ping: ping})
			number = s.Desk.LastContact()
			continue
		}
		simtest.Give(t, s, order.Command{Do: order.SightContact, Number: number, X: x, Y: y, Ping: ping})
	}
	simtest.Give(t, s, order.Command{Do: order.CalibrateLayback, Number: number, Value: 0.4})
	l := s.Desk.Calibrated.Layback
	if len(l.Parts) != 0 || !strings.Contains(l.WhyNot, "cannot be told apart") {
		t.Fatalf("two passes told %+v", l)
	}
	p := s.Desk.Lines[0].Pings
	fix := p[len(p)/2].Fix
	right, err := survey.Layback(fix.CableOut, fix.Depth, s.Desk.Settings.SheaveHeight, exact(t), s.Desk.Settings.AntennaToTow)
	if err != nil {
		t.Fatal(err)
	}
	if off := math.Abs(l.Total.Value - (right - fix.Layback)); off > l.Total.HalfWidth() {
		t.Errorf("the total is %.2f +- %.2f m, want %.2f", l.Total.Value, l.Total.HalfWidth(), right-fix.Layback)
	}
	simtest.Give(t, s, order.Command{Do: order.ApplyCalibration}, order.Command{Do: order.Rework})
	x, y := echo(t, remade(t, s, store))
	cell := s.Exercise.Desk.MosaicCell
	if off := math.Hypot(x-ballAt.X, y-ballAt.Y); off > 2*cell {
		t.Errorf("calibrated, the ball lies %.2f m off, want %.2f", off, 2*cell)
	}
	t.Logf("total %.2f +- %.2f m, want %.2f", l.Total.Value, l.Total.HalfWidth(), right-fix.Layback)
}
