package app

import (
	"image"
	"image/color"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"
)

// justPressed reports a key pressed since the last update.
var justPressed = inpututil.IsKeyJustPressed

// again reports a key pressed or repeating. Where updates are far apart a key may be up
// again by the one that tells of it.
func again(k ebiten.Key) bool {
	d := inpututil.KeyPressDuration(k)
	return justPressed(k) || d > 25 && d%5 == 0
}

// Key is one key of a screen and what it does.
type Key struct{ Name, Does string }

// keysOverlay shows the keys of the screen.
func (g *Game) keysOverlay(dst *ebiten.Image) {
	l := g.Look
	keys := append(g.screen.Keys(), Key{"F1", "show or hide the keys"})
	rows := (len(keys) + 1) / 2
	line := look.Tall(l.Body) + float64(l.Px(6))
	tall := int(line*float64(rows)) + l.Px(80)
	wide := min(l.Px(1000), g.size.Dx()-l.Px(40))
	x0, y0 := (g.size.Dx()-wide)/2, max((g.size.Dy()-tall)/2, 0)
	look.Fill(dst, g.size, color.RGBA{A: 0x90})
	r := image.Rect(x0, y0, x0+wide, y0+tall)
	look.Fill(dst, r, l.Panel)
	look.Frame(dst, r, max(l.Px(1), 1), l.Rule)
	look.Write(dst, "Keys", l.Title, float64(x0+l.Px(20)), float64(y0+l.Px(14)), l.Ink, look.Left)
	for i, k := range keys {
		x := float64(x0 + l.Px(20) + i/rows*(wide-l.Px(20))/2)
		y := float64(y0+l.Px(58)) + line*float64(i%rows)
		look.Write(dst, k.Name, l.Strong, x, y, l.Ink, look.Left)
		look.Write(dst, k.Does, l.Body, x+float64(l.Px(120)), y, l.Ink, look.Left)
	}
}
