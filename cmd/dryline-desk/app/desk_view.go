package app

import (
	"image"
	"math"

	"dryline/cmd/dryline-desk/panes"

	"github.com/hajimehoshi/ebiten/v2"
)

// view is where charts of the desk look: the wheel zooms about the pointer, plus and minus about the middle, a drag moves.
type view struct {
	panes.Projection
	pull  pulled
	moved bool // by the person: it is not fitted to its pane any more
}

// input takes wheel, keys and drag with the pointer at a pixel, which is on the chart or not.
func (v *view) input(at image.Point, on bool) {
	if dy, _ := turned(); dy != 0 && on {
		v.Zoom(math.Pow(1.2, dy), float64(at.X), float64(at.Y))
		v.moved = true
	}
	for i, k := range []ebiten.Key{ebiten.KeyEqual, ebiten.KeyMinus} {
		if again(k) {
			v.PerM, v.moved = min(max(v.PerM*[2]float64{1.2, 1 / 1.2}[i], 0.02), 60), true
		}
	}
	v.pull.follow(at, on)
	if by := at.Sub(v.pull.last); v.pull.held && by != (image.Point{}) {
		v.X -= float64(by.X) / v.PerM
		v.Y += float64(by.Y) / v.PerM
		v.pull.last, v.moved = at, true
	}
}
