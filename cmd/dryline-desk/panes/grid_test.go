package panes

import (
	"image"
	"math"
	"testing"

	"dryline/cmd/dryline-desk/look"
)

// What is inside a pane of a line ends on its edges or at its own ends.
func TestInside(t *testing.T) {
	r := image.Rect(0, 0, 100, 50)
	for _, row := range []struct {
		name           string
		ax, ay, bx, by float64
		from, to       float64
		ok             bool
	}{
		{"all of it", 10, 10, 90, 40, 0, 1, true},
		{"across", -100, 25, 200, 25, 1.0 / 3, 2.0 / 3, true},
		{"out at the top", 50, 25, 50, -25, 0, 0.5, true},
		{"in at the left", -50, 10, 50, 10, 0.5, 1, true},
		{"beside", -10, 60, 110, 60, 0, 0, false},
		{"past the corner", -30, 30, 30, 90, 0, 0, false},
	} {
		from, to, ok := Inside(row.ax, row.ay, row.bx, row.by, r)
		if ok != row.ok || ok && (math.Abs(from-row.from) > 1e-12 || math.Abs(to-row.to) > 1e-12) {
			t.Errorf("%s: got %g to %g, %v; want %g to %g, %v", row.name, from, to, ok, row.from, row.to, row.ok)
		}
	}
}

// The grid is of round figures of the grid that people know, at least a label
// apart at any zoom.
func TestGridIsOfRoundFigures(t *testing.T) {
	l := look.New(&look.Day, 1)
	for _, perM := range []float64{0.1, 0.47, 1, 3, 22, 60} {
		p := Projection{Pane: image.Rect(500, 300, 980, 640), X: 321, Y: 654, PerM: perM}
		v := Plot{GridEast: 412345.6, GridNorth: 5678901.2}
		eastings, northings := gridLines(&p, l, &v)
		for _, lines := range [][]float64{eastings, northings} {
			for i := 1; i < len(lines); i++ {
				step := lines[i] - lines[i-1]
				if r := lines[i] / step; math.Abs(r-math.Round(r)) > 1e-6 {
					t.Errorf("%g pixels a metre: a line at %f, want a multiple of %g", perM, lines[i], step)
				}
				if step*perM < look.Wide("412345 E", l.Small) {
					t.Errorf("%g pixels a metre: lines %g pixels apart", perM, step*perM)
				}
			}
		}
	}
}
