package seabed

import (
	"math"
	"testing"

	"dryline/seabed/grid"
)

// measured is a grid of a relief at every cell metres, as a survey that averages nothing would have it.
func measured(r *relief, cell, size float64) *grid.Grid {
	n := int(size/cell) + 9
	g := &grid.Grid{X0: -4 * cell, Y0: -4 * cell, DX: cell, DY: cell, NX: n, NY: n, Z: make([]float32, n*n), Mark: make([]grid.Mark, n*n)}
	for k := range g.Z {
		g.Z[k] = float32(r.height(g.X0+float64(k%n)*cell, g.Y0+float64(k/n)*cell))
	}
	return g
}

// bend is the rms second difference of a height over a distance.
func bend(f func(x, y float64) float64, lag, size float64) float64 {
	sum, n := 0.0, 0
	for x := 2 * lag; x < size-2*lag; x += 37.3 {
		for y := 2 * lag; y < size-2*lag; y += 41.7 {
			d := f(x, y) - (f(x-lag, y)+f(x+lag, y))/2
			sum, n = sum+d*d, n+1
		}
	}
	return math.Sqrt(sum / float64(n))
}

// Below the cells of measured depths the relief goes on as the spectrum falls: a relief whose octaves
// reach down to 40 m, measured every 64 m, is as bent over 16 m as the relief itself, where the grid
// alone is too smooth. And no wave longer than two cells is added.
func TestReliefGoesOnBelowTheCells(t *testing.T) {
	const size, cell = 4000, 64
	full := Spec{East: size, North: size, Depth: 40, Relief: Relief{Height: 4, Wavelength: 1024, Octaves: 6}}
	truth := newRelief(&full, 5)
	g := measured(&truth, cell, size)
	spec := Spec{East: size, North: size, Depth: 40, Depths: g}
	on := newRelief(&spec, 6)
	if len(on.octave) == 0 || on.shape.Wavelength != 2*cell {
		t.Fatalf("%d octaves from %g m, want from two cells of %d m", len(on.octave), on.shape.Wavelength, cell)
	}
	want, alone, got := bend(truth.height, 16, size), bend(g.HeightAt, 16, size), bend(on.height, 16, size)
	if alone > 0.75*want {
		t.Errorf("the grid alone bends by %.3f m over 16 m, the relief it was taken of by %.3f: it tells nothing", alone, want)
	}
	if got < 0.75*want || got > 1.35*want {
		t.Errorf("the relief bends by %.3f m over 16 m, want about the %.3f m of what was measured (the grid alone: %.3f)", got, want, alone)
	}
}

// Where cells are finer than the longest roughness only the shorter waves of it are added.
func TestRoughnessGoesOnBelowTheCells(t *testing.T) {
	flat := func(cell float64) *World {
		n := int(256/cell) + 9
		g := &grid.Grid{X0: -4 * cell, Y0: -4 * cell, DX: cell, DY: cell, NX: n, NY: n, Z: make([]float32, n*n), Mark: make([]grid.Mark, n*n)}
		for k := range g.Z {
			g.Z[k] = -20
		}
		return New(Spec{East: 256, North: 256, Depth: 20, Depths: g, Base: Gravel}, 1)
	}
	rms := func(w *World) float64 {
		sum, n := 0.0, 0
		for x := 10.0; x < 246; x += 3.1 {
			for y := 10.0; y < 246; y += 3.3 {
				d := w.floor(x, y) + 20
				sum, n = sum+d*d, n+1
			}
		}
		return math.Sqrt(sum / float64(n))
	}
	coarse, fine, finest := rms(flat(20)), rms(flat(2)), rms(flat(1))
	plain := rms(New(Spec{East: 256, North: 256, Depth: 20, Base: Gravel}, 1))
	if math.Abs(coarse/plain-1) > 1e-6 {
		t.Errorf("over cells of 20 m the floor is rough by %.4f m, want the %.4f m of one without depths", coarse, plain)
	}
	if !(fine < 0.75*coarse) || fine == 0 || finest > 1e-6 {
		t.Errorf("tiles are rough by %.4f m over cells of 20 m, %.4f over 2 m, %.4f over 1 m: want less, and none of waves that the grid holds", coarse, fine, finest)
	}
}
