package app

import (
	"image"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/coach"

	"github.com/hajimehoshi/ebiten/v2"
)

// topHint shows the most severe hint on the chart while the page of hints is
// turned away.
func (w *Watch) topHint(g *Game, dst *ebiten.Image) {
	if w.side.tab == tabCoach || len(w.view.Hints) == 0 {
		return
	}
	l, h := g.Look, w.view.Hints[0]
	c := l.Ink
	switch h.Severity {
	case coach.Caution:
		c = l.Caution
	case coach.Alarm:
		c = l.Alarm
	}
	name := h.Severity.String()
	says := strings.ToUpper(name[:1]) + name[1:] + ": " + h.Text
	r := w.at.chart
	lines := wrapped(says, l.Small, float64(r.Dx()-l.Px(70)))
	tall := int(look.Tall(l.Small))*len(lines) + l.Px(10)
	box := image.Rect(r.Min.X+l.Px(6), r.Min.Y+l.Px(6), r.Max.X-l.Px(44), r.Min.Y+l.Px(6)+tall)
	look.Fill(dst, box, l.Panel)
	look.Fill(dst, image.Rect(box.Min.X, box.Min.Y, box.Min.X+l.Px(4), box.Max.Y), c)
	for i, line := range lines {
		look.Write(dst, line, l.Small, float64(box.Min.X+l.Px(10)), float64(box.Min.Y+l.Px(5))+float64(i)*look.Tall(l.Small), l.Ink, look.Left)
	}
}
