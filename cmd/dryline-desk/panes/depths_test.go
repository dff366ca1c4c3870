package panes

import (
	"math"
	"testing"
)

// On a floor that slopes evenly a contour is a straight line where the slope has its depth; on a bowl it closes: every
// end of a stroke is the end of another, but at the edge of the soundings.
func TestContoursLieAtTheirDepth(t *testing.T) {
	grid := func(f func(x, y float64) float64) *Depths {
		var z []float64
		for j := range 9 {
			for i := range 7 {
				z = append(z, f(100+20*float64(i), -40+20*float64(j)))
			}
		}
		return NewDepths(100, -40, 20, 7, 9, z, 0.5)
	}
	slope := func(x, y float64) float64 { return 10 + 0.05*(x-100) + 0.025*(y+40) }
	d := grid(slope)
	if d.Every != 2 || len(d.lines) != 5 {
		t.Fatalf("contours every %g m, %d of them; want 2 m, of 12 to 20", d.Every, len(d.lines))
	}
	for _, c := range d.lines[:4] {
		long := 0.0
		for k := 0; k < len(c.pieces); k += 4 {
			for _, e := range [][]float64{c.pieces[k : k+2], c.pieces[k+2 : k+4]} {
				if z := slope(e[0], e[1]); math.Abs(z-c.depth) > 1e-9 {
					t.Fatalf("the contour of %g m comes to %.3f m", c.depth, z)
				}
			}
			long += math.Hypot(c.pieces[k+2]-c.pieces[k], c.pieces[k+3]-c.pieces[k+1])
		}
		if c.depth == 14 {
			// From (100, 120) to (180, -40): x - 100 = (4 - 0.025 (y + 40)) / 0.05.
			if want := math.Hypot(80, 160); math.Abs(long-want) > 1e-6 {
				t.Errorf("the contour of 14 m is %.3f m long, want %.3f", long, want)
			}
		}
	}
	bowl := grid(func(x, y float64) float64 { return 20 - 0.002*((x-161)*(x-161)+(y-37)*(y-37)) })
	ends := map[[2]int]int{}
	for _, c := range bowl.lines {
		for k := 0; k+1 < len(c.pieces); k += 2 {
			x, y := c.pieces[k], c.pieces[k+1]
			if x > 100+1e-6 && x < 220-1e-6 && y > -40+1e-6 && y < 120-1e-6 {
				ends[[2]int{int(math.Round(1e4 * x)), int(math.Round(1e4 * y))}]++
			}
		}
	}
	for at, n := range ends {
		if n%2 != 0 {
			t.Errorf("a contour ends at %v", at)
		}
	}
	if len(bowl.lines) == 0 || len(ends) < 20 {
		t.Error("no contour closes")
	}
	if rough := NewDepths(0, 0, 10, 2, 2, []float64{10, 10.4, 10.9, 11.2}, 0.6); rough.Every != 0 || len(rough.lines) > 0 {
		t.Errorf("soundings that may be wrong by 0.6 m have contours every %g m", rough.Every)
	}
	if slope := NewDepths(0, 0, 10, 2, 2, []float64{10, 14, 10, 14}, 0.6); slope.Every != 2 || len(slope.lines) != 2 {
		t.Errorf("of 10 to 14 m, wrong by 0.6 m, contours every %g m; want 2", slope.Every)
	}
	if flat := grid(func(float64, float64) float64 { return 12 }); len(flat.lines) > 0 {
		t.Error("a flat floor has contours")
	}
}
