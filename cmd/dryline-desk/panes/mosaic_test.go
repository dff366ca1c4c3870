package panes

import (
	"math"
	"testing"
)

// Four cells become one with the mean of what is known of them; what is not
// known counts for nothing but is kept account of (exact arithmetic).
func TestHalvedCellsAreTheMeanOfWhatIsKnown(t *testing.T) {
	c := cells{4,
		[]uint8{
			10, 20, 0, 0,
			30, 40, 0, 0,
			0, 200, 0, 0,
			0, 0, 0, 255,
		},
		[]uint8{
			255, 255, 0, 0,
			255, 255, 0, 0,
			0, 255, 0, 0,
			0, 0, 0, 255,
		},
	}
	c.halve()
	for i, want := range []struct{ grey, known uint8 }{{25, 255}, {0, 0}, {200, 64}, {255, 64}} {
		if c.grey[i] != want.grey || c.known[i] != want.known {
			t.Errorf("cell %d: grey %d, known %d; want %d and %d", i, c.grey[i], c.known[i], want.grey, want.known)
		}
	}
	c.halve()
	// 255 parts of 25, 64 of 200 and 64 of 255.
	if want := uint8(math.Round((255*25 + 64*200 + 64*255) / 383.0)); c.side != 1 || c.grey[0] != want || c.known[0] != 96 {
		t.Errorf("the last: grey %d, known %d; want %d and 96", c.grey[0], c.known[0], want)
	}
}

// A pixel is covered by one to two cells of the level drawn, so that the four
// samples of the shader miss none; beyond the last level by more.
func TestLevelSuitsThePixel(t *testing.T) {
	m := Mosaic{cell: 0.25}
	for _, perM := range []float64{60, 8, 4, 3.9, 2, 1, 0.4, 0.2, 0.1} {
		k, step := m.level(perM)
		if got := step * 0.25 * float64(int(1)<<k); math.Abs(got-1/perM) > 1e-9 {
			t.Errorf("%g pixels a metre: a pixel covers %g m, want %g", perM, got, 1/perM)
		}
		if k > 0 && step < 1 || k < mosaicLevels-1 && step >= 2 {
			t.Errorf("%g pixels a metre: level %d, %g cells a pixel", perM, k, step)
		}
	}
}
