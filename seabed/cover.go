package seabed

import (
	"iter"
	"math"

	opensimplex "github.com/ojrac/opensimplex-go"
)

// areaNoise thins an Area out.
type areaNoise struct{ noise opensimplex.Noise }

// cover is the noise at a place, mostly in -1..1.
func (n *areaNoise) cover(x, y float64, a *Area) float64 {
	x, y = a.lengthwise()(x, y)
	sum := 0.0
	for size, amplitude := range a.octaves() {
		sum += n.octave(x, y, size, amplitude)
	}
	return sum
}

// onto lays cover on the grid around a tile, where it is needed.
func (n *areaNoise) onto(c *coarse, needed *[len(coarse{})]bool, x0, y0 float64, a *Area) {
	clear(c[:])
	lengthwise := a.lengthwise()
	for size, amplitude := range a.octaves() {
		eachCoarse(x0, y0, 0, coarseSide, func(k int, x, y float64) {
			if needed[k] {
				x, y = lengthwise(x, y)
				c[k] += n.octave(x, y, size, amplitude)
			}
		})
	}
}

func (n *areaNoise) octave(x, y, size, amplitude float64) float64 {
	return amplitude * n.noise.Eval2(x/size+amplitude*40, y/size)
}

// octaves are sizes and amplitudes down to the 4 m that the tiles' 1 m grid carries: edges
// of patches are ragged at every scale one sees them at.
func (a *Area) octaves() iter.Seq2[float64, float64] {
	return func(yield func(size, amplitude float64) bool) {
		amplitude := 0.68
		for size := max(a.Patchiness, 8); size >= 4 && yield(size, amplitude); size /= 2.1 {
			amplitude *= 0.52
		}
	}
}

// lengthwise makes what is drawn long along the bearing, and as thin as before.
func (a *Area) lengthwise() func(x, y float64) (float64, float64) {
	if a.Stretch <= 1 {
		return func(x, y float64) (float64, float64) { return x, y }
	}
	sin, cos := math.Sincos(a.Along)
	return func(x, y float64) (float64, float64) { return (x*sin + y*cos) / a.Stretch, x*cos - y*sin }
}
