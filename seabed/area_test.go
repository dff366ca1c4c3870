package seabed

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A tile that an area is said to miss holds nothing of it, not even of its softest
// edge, at any node of its grid; and it is said of most of those far off.
func TestAreasMissOnlyWhatTheyDoNotTouch(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	missed, far := 0, 0
	for range 400 {
		a := Area{Feather: rng.Float64() * 60}
		for range 3 + rng.IntN(4) {
			a.Polygon = append(a.Polygon, Point{rng.Float64() * 200, rng.Float64() * 200})
		}
		x0, y0 := math.Floor(rng.Float64()*16-5)*tileSize, math.Floor(rng.Float64()*16-5)*tileSize
		nothing := true
		eachCoarse(x0, y0, 0, coarseSide, func(_ int, x, y float64) {
			_, soft := a.weights(x, y, edgeWidth, edgeMix, nil)
			nothing = nothing && soft == 0
		})
		misses := a.misses(x0, y0)
		if misses && !nothing {
			t.Fatalf("%v with a feather of %g m is said to miss the tile at (%g, %g)", a.Polygon, a.Feather, x0, y0)
		}
		if nothing {
			far++
		}
		if misses {
			missed++
		}
	}
	if missed < far*2/3 {
		t.Errorf("%d of %d tiles without anything are missed", missed, far)
	}
}
