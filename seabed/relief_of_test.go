package seabed

import (
	"math"
	"testing"
)

// The large shape of the floor is the one that the world of the same seed is built on: without ripples
// and roughness they are one to what a tile's grid loses, and another seed's is another.
func TestReliefOfIsTheFloorOfTheWorld(t *testing.T) {
	spec := ground()
	spec.Bedforms, spec.Objects, spec.Featureless = nil, nil, true
	w, relief, other := New(spec, 3), ReliefOf(&spec, 3), ReliefOf(&spec, 4)
	apart := 0.0
	for i := range 500 {
		x := math.Mod(float64(i)*7.31, spec.East)
		y := math.Mod(float64(i)*3.77, spec.North)
		if got, want := relief(x, y), w.HeightAt(x, y); math.Abs(got-want) > 0.004 {
			t.Fatalf("at (%.2f, %.2f): %.4f m, the world has %.4f m", x, y, got, want)
		}
		apart = max(apart, math.Abs(relief(x, y)-other(x, y)))
	}
	if apart < 0.05 {
		t.Errorf("another seed has the same floor within %.3f m", apart)
	}
}
