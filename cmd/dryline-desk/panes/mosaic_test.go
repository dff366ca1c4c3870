package panes

import (
	"image"
	"math"
	"testing"

	"dryline/cmd/dryline-desk/crew"
	"dryline/sonar/mosaic"
	"dryline/sonar/waterfall/picture"

	"github.com/hajimehoshi/ebiten/v2"
)

// However large the survey, and wherever and however closely it is looked at, the
// textures are those of a pane: four cells a pixel at most and the edges of the
// sheets, and eight more.
func TestTexturesAreThoseOfThePane(t *testing.T) {
	m := NewMosaic(0.25, 0.1, -0.05)
	const tiles = 40 // a square of 1.3 km: 130 MB of textures if all were held
	for i := range tiles {
		for j := range tiles {
			tile := &crew.Tile{I: i * mosaic.TileCells, J: j * mosaic.TileCells}
			tile.Grey[0] = 9
			m.Put(tile)
		}
	}
	if n := m.Textures(); n != 0 {
		t.Errorf("%d bytes of textures before anything is shown", n)
	}
	pane := image.Rect(40, 30, 540, 330)
	dst := ebiten.NewImage(600, 400)
	defer dst.Deallocate()
	least, most := math.MaxInt, 0
	for _, perM := range []float64{8, 4, 2.1, 1, 0.5, 0.23, 8} {
		side := func(pixels int) int { return int(math.Ceil(2*float64(pixels)/sheetCells)) + 1 }
		bound := (side(pane.Dx())*side(pane.Dy()) + moreSheets) * 4 * sheetCells * sheetCells
		for at := 0.0; at < tiles*mosaic.TileCells*0.25; at += 60 / perM {
			p := Projection{Pane: pane, X: at, Y: at, PerM: perM}
			for range 3 {
				m.Draw(dst, &p, Shade{Ramp: picture.Grey()})
			}
			n := m.Textures()
			if least, most = min(least, n), max(most, n); n > bound {
				t.Fatalf("%g pixels a metre at %.0f m: %.1f MB of textures, want at most %.1f", perM, at, float64(n)/1e6, float64(bound)/1e6)
			}
		}
	}
	if least == 0 || most == 0 {
		t.Error("nothing was shown")
	}
	m.Deallocate()
	if n := m.Textures(); n != 0 {
		t.Errorf("%d bytes of textures are left", n)
	}
}

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
	c = c.halved()
	for i, want := range []struct{ grey, known uint8 }{{25, 255}, {0, 0}, {200, 64}, {255, 64}} {
		if c.grey[i] != want.grey || c.known[i] != want.known {
			t.Errorf("cell %d: grey %d, known %d; want %d and %d", i, c.grey[i], c.known[i], want.grey, want.known)
		}
	}
	c = c.halved()
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
