package app

import (
	"image"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// watched draws a frame and tells every line of lettering.
func watched(g *Game, dst *ebiten.Image, told func(s string, at image.Rectangle)) {
	watchedBy(func() { g.Draw(dst) }, told)
}

// watchedBy tells every line of lettering that is drawn.
func watchedBy(draw func(), told func(s string, at image.Rectangle)) {
	look.Watcher = func(s string, at, _ image.Rectangle, _ text.Face) { told(s, at) }
	draw()
	look.Watcher = nil
}
