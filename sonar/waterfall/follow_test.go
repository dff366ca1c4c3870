package waterfall

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// A leveller that follows another levels as it would, and leaves it alone: the
// other comes out the same whether followed or not.
func TestFollow(t *testing.T) {
	const bin = 0.05
	rng := rand.New(rand.NewPCG(1, 2))
	alone, led, follower := NewLeveller(4000), NewLeveller(4000), NewLeveller(4000)
	a, b, c := make([]float32, 1000), make([]float32, 1000), make([]float32, 1000)
	for i := range 300 {
		altitude := 6 + float64(i%40)/20
		side := record(rng, altitude, nil)
		alone.Learn(side, bin, altitude)
		led.Learn(side, bin, altitude)
		follower.Follow(led)
		follower.Level(c, side, bin, altitude)
		if i%7 > 0 {
			continue // levelled now and then only
		}
		alone.Level(a, side, bin, altitude)
		led.Level(b, side, bin, altitude)
		if !slices.Equal(a, b) {
			t.Fatalf("ping %d: a leveller that is followed levels otherwise", i)
		}
		if i > 100 {
			sum := func(v []float32) (s float32) {
				for _, x := range v {
					s += x
				}
				return s
			}
			if ratio := sum(c) / sum(b); ratio < 0.97 || ratio > 1.03 {
				t.Fatalf("ping %d: the follower's level is %.3f of the other's", i, ratio)
			}
		}
	}
}
