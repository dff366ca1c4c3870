package survey

import (
	"math"
	"testing"
)

// The straight-wire rows check the formula of the IHO C-13 Manual on Hydrography
// (1st ed. 2005, Chapter 4, 2.3.11.1), worked out separately for these numbers.
// Sheave height and offset of 6.065 and 13.481 m are those of a published
// layback routine that puts the factor on the cable. The other numbers were
// worked out separately from the same formula.
func TestLayback(t *testing.T) {
	const tolerance = 5e-5 // half the last digit given
	for _, tt := range []struct {
		name                                 string
		cable, depth, sheave, factor, offset float64
		want                                 float64
	}{
		{"C-13 formula", 100, 20, 0, 1, 3, 100.9796},
		{"high sheave", 100, 40, 6.065, 1, 13.481, 102.2392},
		{"at the water line", 100, 40, 0, 1, 0, 91.6515},
		{"straight wire", 150, 30, 3, 1, 5, 151.3250},
		{"factor on the cable", 150, 30, 3, 0.97, 5, 146.7083}, // 146.9352 with it on the result
		{"short cable", 60, 12, 2.5, 0.95, 0, 55.1249},
		{"straight down", 50, 45, 5, 1, 2, 2},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, err := Layback(tt.cable, tt.depth, tt.sheave, tt.factor, tt.offset)
			if err != nil || math.Abs(got-tt.want) > tolerance {
				t.Errorf("got %.5f, %v, want %.4f", got, err, tt.want)
			}
		})
	}
}

func TestLaybackImpossible(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, tt := range []struct {
		name                                 string
		cable, depth, sheave, factor, offset float64
	}{
		{"cable too short", 40, 38, 3, 1, 0},
		{"too short by its factor", 50, 45, 4, 0.95, 0},
		{"fish above the sheave", 50, -60, 3, 1, 0},
		{"cable wound in", -5, 0, 0, 1, 0},
		{"no factor", 100, 20, 0, 0, 0},
		{"factor above one", 100, 20, 0, 1.02, 0},
		{"cable not a number", nan, 20, 0, 1, 0},
		{"depth not a number", 100, nan, 0, 1, 0},
		{"factor not a number", 100, 20, 0, nan, 0},
		{"offset not a number", 100, 20, 0, 1, nan},
		{"endless cable", inf, 20, 0, 1, 0},
		{"endless depth", 100, inf, 0, 1, 0},
	} {
		if got, err := Layback(tt.cable, tt.depth, tt.sheave, tt.factor, tt.offset); err == nil || got != 0 {
			t.Errorf("%s: got %g, %v, want 0 and an error", tt.name, got, err)
		}
	}
}
