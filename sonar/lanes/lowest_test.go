package lanes

import (
	"math/rand/v2"
	"slices"
	"testing"
)

func TestLowest(t *testing.T) {
	rng := rand.New(rand.NewPCG(51, 52))
	for n := range 200 {
		z := make([]float32, n)
		for k := range z {
			z[k] = float32(rng.NormFloat64())
			if n%2 == 0 {
				z[k] -= 9
			}
		}
		want := float32(0)
		if n > 0 {
			want = min(slices.Min(z), 0)
		}
		forms(func(name string) {
			if got := Lowest(z); got != want {
				t.Errorf("%s, %d heights: %g, want %g", name, n, got, want)
			}
		})
	}
}
