package panes

import (
	"image"
	"math"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// chartedRing is the radius of the ring about a thing that was charted before, points.
const chartedRing = 4

// chartedNames letters what was charted before, where there is room for it.
func chartedNames(dst *ebiten.Image, p *Projection, l *look.Look, all []Known, labels *Labels) {
	for _, k := range all {
		x, y := p.At(k.X, k.Y)
		if k.Name == "" || !image.Pt(int(x), int(y)).In(p.Pane) {
			continue
		}
		wide, tall := look.Wide(k.Name, l.Small)+6*l.Scale, look.Tall(l.Small)+l.Scale
		off := (chartedRing + 3) * l.Scale
		// Below, above, to the right, to the left of its ring.
		for _, at := range [4][2]float64{{0, off + tall/2}, {0, -off - tall/2}, {off + wide/2, 0}, {-off - wide/2, 0}} {
			r := image.Rect(int(x+at[0]-wide/2), int(y+at[1]-tall/2), int(x+at[0]+wide/2)+1, int(y+at[1]+tall/2)+1)
			if r.In(p.Pane) && labels.Try(r) {
				tag(dst, l, k.Name, x+at[0], y+at[1])
				break
			}
		}
	}
}

// Look is a place that the floor was looked at from, and the grid bearing the swath was laid square to.
type Look struct{ X, Y, Heading float64 }

// looks shows which way the sound went: to either side of the fish's track, every so often, an arrow.
// Shadows fall that way.
func looks(dst *ebiten.Image, p *Projection, l *look.Look, all []Look) {
	const apart, from, long, head = 90, 4, 13, 3.5 // points
	lx, ly := math.Inf(1), math.Inf(1)
	for _, k := range all {
		x, y := p.At(k.X, k.Y)
		if math.Hypot(x-lx, y-ly) < apart*l.Scale {
			continue
		}
		lx, ly = x, y
		if !image.Pt(int(x), int(y)).In(p.Pane) {
			continue
		}
		sin, cos := math.Sincos(k.Heading)
		for _, side := range [2]float64{-1, 1} {
			dx, dy := side*cos, side*sin // abeam, on the screen
			put := func(out, along float64) (float64, float64) {
				return x + l.Scale*(out*dx+along*dy), y + l.Scale*(out*dy-along*dx)
			}
			x0, y0 := put(from, 0)
			x1, y1 := put(from+long, 0)
			for _, pen := range []struct {
				width float64
				ink   bool
			}{{3, false}, {1.4, true}} {
				c := l.Panel
				if pen.ink {
					c = l.Ink
				}
				look.Stroke(dst, x0, y0, x1, y1, pen.width*l.Scale, c)
				for _, barb := range [2]float64{-head, head} {
					bx, by := put(from+long-head, barb)
					look.Stroke(dst, x1, y1, bx, by, pen.width*l.Scale, c)
				}
			}
		}
	}
}
