package app

import (
	"image"
	"image/color"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/coach"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// area is the part of the window that is the screen's; below it lies the strip.
func (g *Game) area() image.Rectangle {
	r := g.size
	r.Max.Y -= g.stripTall()
	return r
}

func (g *Game) stripTall() int { return int(look.Tall(g.Look.Small)) + g.Look.Px(8) }

// strip letters the line at the foot of the window: what there is to notice,
// what the control under the pointer does, or the coach's hint if its page is
// turned away. An alarm of the coach gives way to a notice for a moment only, and to
// nothing else.
func (g *Game) strip(dst *ebiten.Image) {
	l := g.Look
	r := image.Rect(g.size.Min.X, g.area().Max.Y, g.size.Max.X, g.size.Max.Y)
	var foot Foot
	if g.screen != nil {
		foot = g.screen.Foot(g)
	}
	urgent := foot.Hint != "" && foot.Severity == coach.Alarm
	ground, ink, says, hinted := l.Desk, l.Soft, "", false
	switch {
	case g.Notice != "" && !(urgent && g.noticeAge > noticeFirst):
		ground, ink, says = l.Ink, l.Panel, g.Notice
	case foot.Pending != "" && !urgent:
		ink, says = l.Ink, foot.Pending
	case g.hover != "" && !urgent:
		ink, says = l.Ink, g.hover
	case foot.Hint != "":
		ink, says, hinted = l.Ink, foot.Hint, true
	case foot.Next != "":
		ink, says = l.Ink, foot.Next
	}
	look.Fill(dst, r, ground)
	if hinted || urgent {
		mark := image.Rect(r.Min.X, r.Min.Y, r.Min.X+l.Px(6), r.Max.Y)
		look.Fill(dst, mark, []color.Color{l.Ink, l.Caution, l.Alarm}[foot.Severity])
	}
	at := g.keysRect()
	inked := l.Soft
	if ground == l.Ink {
		inked = l.Panel
	}
	look.Write(dst, keysSays, l.Small, float64(at.Max.X-l.Px(12)), float64(r.Min.Y+l.Px(4)), inked, look.Right)
	says = look.Fitted(says, l.Small, at.Min.X-r.Min.X-l.Px(24))
	look.Write(dst, says, l.Small, float64(r.Min.X+l.Px(12)), float64(r.Min.Y+l.Px(4)), ink, look.Left)
}

const keysSays = "Keys F1"

// keysRect is where the strip leads to the keys.
func (g *Game) keysRect() image.Rectangle {
	l := g.Look
	wide := int(look.Wide(keysSays, l.Small)) + l.Px(28)
	return image.Rect(g.size.Max.X-wide, g.area().Max.Y, g.size.Max.X, g.size.Max.Y)
}

// explained has the strip say what a control does while the pointer is on it.
func explained[W widget.PreferredSizeLocateableWidget](g *Game, w W, says string) W {
	at := w.GetWidget()
	at.CursorEnterEvent.AddHandler(func(any) { g.hover = says })
	at.CursorExitEvent.AddHandler(func(any) {
		if g.hover == says {
			g.hover = ""
		}
	})
	return w
}
