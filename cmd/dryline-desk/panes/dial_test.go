package panes

import (
	"math"
	"testing"
)

// A heading that goes through north has no jump in its trend.
func TestTrendOfAHeadingGoesThroughNorth(t *testing.T) {
	d := Dial{Turns: true, Span: 5}
	for _, v := range []float64{350, 355, 359, 3, 8, math.NaN(), 2, 358, 180, 90, 10, 350} {
		d.Push(v)
	}
	for i := 1; i < len(d.trend); i++ {
		if step := math.Abs(d.trend[i] - d.trend[i-1]); step > 180 {
			t.Errorf("from %g to %g: a step of %g degrees", d.trend[i-1], d.trend[i], step)
		}
	}
	if got := d.trend[4]; got != 368 {
		t.Errorf("350, 355, 359, 3, 8 ends at %g, want 368", got)
	}
}

// Noise does not fill the height of a trend; what is more than the least span
// does.
func TestTrendHasALeastSpan(t *testing.T) {
	for _, row := range []struct {
		name         string
		span         float64
		values       []float64
		foot, height float64
	}{
		{"noise", 0.5, []float64{4.19, 4.21, 4.2}, 3.95, 0.5},
		{"one value", 1, []float64{7}, 6.5, 1},
		{"a change", 0.5, []float64{3, 4, 5}, 3, 2},
		{"a gap", 0.5, []float64{3, math.NaN(), 5}, 3, 2},
		{"nothing known", 0.5, []float64{math.NaN(), math.NaN()}, 0, 1},
	} {
		d := Dial{Span: row.span}
		for _, v := range row.values {
			d.Push(v)
		}
		lo, hi := d.reach()
		if math.Abs(lo-row.foot) > 1e-9 || math.Abs(hi-lo-row.height) > 1e-9 {
			t.Errorf("%s: from %g to %g, want %g to %g", row.name, lo, hi, row.foot, row.foot+row.height)
		}
	}
}
