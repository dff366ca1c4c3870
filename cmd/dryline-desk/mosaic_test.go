//go:build !js

package main

import (
	"image"
	"math/rand/v2"
	"testing"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sonar/mosaic"
	"dryline/sonar/waterfall/picture"

	"github.com/hajimehoshi/ebiten/v2"
)

// A pixel that covers many cells shows their mean: of independent cells the
// deviation falls as one over the root of their number. Where nothing is known
// the ground shows, and half of it where half is known.
func TestMosaicDrawnSmallIsItsMean(t *testing.T) {
	needScreen(t)
	rng := rand.New(rand.NewPCG(5, 6))
	m := panes.NewMosaic(0.25, 0, 0)
	for i := range 4 {
		tile := &crew.Tile{I: i * mosaic.TileCells}
		for n := range tile.Grey {
			if i < 2 || i == 3 && n%2 == 0 {
				tile.Grey[n] = uint8(1 + rng.IntN(255))
			}
		}
		m.Put(tile)
	}
	shade := panes.Shade{Ramp: picture.Grey(), Contrast: 1}
	const tileWide = mosaic.TileCells * 0.25 // metres
	draw := func(perM float64) (*image.RGBA, func(tile int) image.Rectangle) {
		dst := ebiten.NewImage(300, 100)
		defer dst.Deallocate()
		p := panes.Projection{Pane: dst.Bounds(), X: 2 * tileWide, Y: tileWide / 2, PerM: perM}
		m.Draw(dst, &p, shade)
		out := image.NewRGBA(dst.Bounds())
		dst.ReadPixels(out.Pix)
		return out, func(tile int) image.Rectangle {
			x0, y1 := p.At(float64(tile)*tileWide, 0)
			x1, y0 := p.At(float64(tile+1)*tileWide, tileWide)
			return image.Rect(int(x0)+1, int(y0)+1, int(x1)-1, int(y1)-1).Intersect(dst.Bounds())
		}
	}
	near, at := draw(4) // a pixel a cell
	mean1, rough1 := spread(near, at(1))
	for _, cells := range []float64{4, 8, 10} {
		small, at := draw(4 / cells)
		mean, rough := spread(small, at(0))
		// Half as much again for the levels between which the shader chooses.
		if rough > 1.5*rough1/cells {
			t.Errorf("%g cells a pixel: the grey deviates by %.1f, one by %.1f; want %.1f", cells, rough, rough1, rough1/cells)
		}
		if mean < mean1-6 || mean > mean1+6 {
			t.Errorf("%g cells a pixel: %.1f bright, one %.1f", cells, mean, mean1)
		}
		in := at(2)
		if got := like(small, in, small.RGBAAt(0, 0)); got != in.Dx()*in.Dy() || small.RGBAAt(0, 0).A != 0 {
			t.Errorf("%g cells a pixel: of the tile without data %d of %d pixels are clear", cells, got, in.Dx()*in.Dy())
		}
		in = at(3)
		if a := small.RGBAAt(in.Min.X+in.Dx()/2, in.Min.Y+in.Dy()/2).A; a < 120 || a > 136 {
			t.Errorf("%g cells a pixel: half known is %d opaque, want half of 255", cells, a)
		}
	}
}

// Where two textures of the mosaic meet there is no seam.
func TestMosaicHasNoSeams(t *testing.T) {
	needScreen(t)
	m := panes.NewMosaic(0.25, 0, 0)
	for i := -2; i < 2; i++ {
		for j := -2; j < 2; j++ {
			tile := &crew.Tile{I: i * mosaic.TileCells, J: j * mosaic.TileCells}
			for n := range tile.Grey {
				tile.Grey[n] = 100
			}
			m.Put(tile)
		}
	}
	for _, perM := range []float64{8, 3.3, 1.7, 0.9, 0.61} {
		dst := ebiten.NewImage(40, 40)
		p := panes.Projection{Pane: dst.Bounds(), X: 0.37, Y: 0.21, PerM: perM}
		m.Draw(dst, &p, panes.Shade{Ramp: picture.Grey(), Contrast: 1})
		out := image.NewRGBA(dst.Bounds())
		dst.ReadPixels(out.Pix)
		dst.Deallocate()
		if got := colours(out, out.Rect); got != 1 || out.RGBAAt(20, 20).A != 255 {
			t.Errorf("%g pixels a metre: an even floor has %d colours, want 1", perM, got)
		}
	}
}
