package sim_test

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/simtest"
	"dryline/sim/survey"
)

// brightest returns the centroid of what is much brighter than the floor within
// reach of a point.
func brightest(desk *survey.Desk, at seabed.Point, reach float64) (x, y float64, ok bool) {
	cell := desk.Mosaic.CellSize()
	sum := 0.0
	for j := -reach; j <= reach; j += cell {
		for i := -reach; i <= reach; i += cell {
			// Cell centres, so that what is weighed is where it is drawn.
			cx := (math.Floor((at.X+i)/cell) + 0.5) * cell
			cy := (math.Floor((at.Y+j)/cell) + 0.5) * cell
			if v, looks := desk.Mosaic.At(cx, cy); looks > 0 && v > 4 {
				w := float64(v)
				x, y, sum = x+w*cx, y+w*cy, sum+w
			}
		}
	}
	return x / sum, y / sum, sum > 0
}

// With perfect instruments an object appears in the mosaic where it is: from
// the exercise's own coordinates, through vessel, tow, ping, bottom track,
// slant range correction and layback, back to the grid. The near side of a
// sphere answers, so its echo lies up to its radius towards the track.
func TestObjectLandsWhereItIs(t *testing.T) {
	for _, test := range []struct {
		name     string
		at       seabed.Point
		reversed bool
	}{
		{"starboard, line run north", seabed.Point{X: 125, Y: 290}, false},
		{"port, line run north", seabed.Point{X: 70, Y: 300}, false},
		{"starboard, line run south", seabed.Point{X: 78, Y: 280}, true},
	} {
		ex := simtest.Small(t)
		ex.Seabed.Objects = []seabed.Object{{Name: "ball", Kind: "sphere", At: test.at, Length: 0.9, Width: 0.9, Height: 0.9}}
		ex.Plan.Order = []exercise.Run{{Line: 0, Reversed: test.reversed}}
		ex.Plan.CableOut = 15
		simtest.Exact(ex)
		s := begin(t, ex)
		s.AttachMate()
		for !s.Done() {
			s.Advance(1000)
		}
		x, y, ok := brightest(s.Desk, test.at, 4)
		if !ok {
			t.Errorf("%s: nothing bright near the ball", test.name)
			continue
		}
		const cells = 2
		if d := math.Hypot(x-test.at.X, y-test.at.Y); d > cells*ex.Desk.MosaicCell {
			t.Errorf("%s: the ball is %.2f m off at (%.2f, %.2f), want within %d cells of %g m", test.name, d, x, y, cells, ex.Desk.MosaicCell)
		}
	}
}

// Nothing in a session makes a number that is not one, whatever is ordered.
func TestOrdersNeverBreakTheSession(t *testing.T) {
	for _, c := range []order.Command{
		{Do: order.Speed, Value: 0}, {Do: order.Speed, Value: 15}, {Do: order.Rudder, Value: 1.5}, {Do: order.Cable, Value: 0},
		{Do: order.Cable, Value: 100}, {Do: order.SteerHeading, Value: 400}, {Do: order.SteerPoint, X: -1e6, Y: 1e6},
	} {
		s := begin(t, simtest.Small(t))
		if err := s.Give(c); err != nil {
			t.Fatalf("%+v: %v", c, err)
		}
		if err := s.Give(order.Command{Do: order.LogOn, Line: "L1"}); err != nil {
			t.Fatal(err)
		}
		s.Advance(1500)
		p := s.Scene()
		for _, v := range []float64{p.FishX, p.FishY, p.FishZ, p.FishHeading, p.X, p.Heading, s.Reading().FishDepth, s.Passage.Fix().X} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%+v: %+v", c, p)
				break
			}
		}
	}
}
