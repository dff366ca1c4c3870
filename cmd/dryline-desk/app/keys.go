package app

import (
	"image"
	"image/color"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"
)

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
	g.keyTaps = g.keyTaps[:0]
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
		g.letterKeys(dst, k.Name, x, y, line)
		look.Write(dst, k.Does, l.Body, x+float64(l.Px(120)), y, l.Ink, look.Left)
	}
}

// letterKeys letters the names of the keys of a row. Those that can be tapped are underlined.
func (g *Game) letterKeys(dst *ebiten.Image, names string, x, y, line float64) {
	l := g.Look
	look.Write(dst, names, l.Strong, x, y, l.Ink, look.Left)
	before := ""
	for _, part := range apartKeys(names) {
		x0, x1 := x+look.Wide(before, l.Strong), x+look.Wide(before+part, l.Strong)
		before += part
		k, shift, ok := keyLettered(part)
		if !ok {
			continue
		}
		foot := y + look.Tall(l.Strong)
		look.Stroke(dst, x0, foot, x1, foot, max(l.Scale, 1), l.Accent)
		out := 8 * l.Scale // fingers are wide
		g.keyTaps = append(g.keyTaps, keyTap{part, image.Rect(int(x0-out), int(y-3*l.Scale), int(x1+out), int(y-3*l.Scale+line)), k, shift})
	}
}
