package app

import (
	"image"
	"image/color"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// noticeStays is how long a notice is shown, updates: twelve seconds.
const noticeStays = 720

// area is the part of the window that is the screen's; below it lies the strip.
func (g *Game) area() image.Rectangle {
	r := g.size
	r.Max.Y -= g.stripTall()
	return r
}

func (g *Game) stripTall() int { return int(look.Tall(g.Look.Small)) + g.Look.Px(8) }

// ageNotice lets a notice go when it has been shown long enough, or at Esc.
func (g *Game) ageNotice(away bool) {
	if g.Notice != g.noticed {
		g.noticed, g.noticeAge = g.Notice, 0
	}
	if g.noticeAge++; g.noticeAge > noticeStays || away {
		g.Notice = ""
	}
}

// strip letters the line at the foot of the window: what there is to notice,
// what the control under the pointer does, or the coach's hint if its page is
// turned away.
func (g *Game) strip(dst *ebiten.Image) {
	l := g.Look
	r := image.Rect(g.size.Min.X, g.area().Max.Y, g.size.Max.X, g.size.Max.Y)
	ground, ink, says := l.Desk, l.Soft, "F1 shows the keys."
	switch {
	case g.Notice != "":
		ground, ink, says = l.Ink, l.Panel, g.Notice
	case g.hover != "":
		ink, says = l.Ink, g.hover
	}
	if w, ok := g.screen.(*Watch); ok && g.Notice == "" && g.hover == "" {
		if hint, severity := w.stripHint(); hint != "" {
			ink, says = l.Ink, hint
			mark := image.Rect(r.Min.X, r.Min.Y, r.Min.X+l.Px(6), r.Max.Y)
			defer look.Fill(dst, mark, []color.Color{l.Ink, l.Caution, l.Alarm}[severity])
		}
	}
	look.Fill(dst, r, ground)
	says = fittedTo(says, l, l.Small, r.Dx()-l.Px(24))
	look.Write(dst, says, l.Small, float64(r.Min.X+l.Px(12)), float64(r.Min.Y+l.Px(4)), ink, look.Left)
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
