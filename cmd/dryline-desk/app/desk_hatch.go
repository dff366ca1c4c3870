package app

import (
	"image"
	"strconv"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"

	"github.com/hajimehoshi/ebiten/v2"
)

// drawHolidays hatches what was not seen, numbers it, and draws the lines that would fill the one chosen.
func (s *holidayStation) drawHolidays(dst *ebiten.Image, l *look.Look) {
	pane := dst.SubImage(s.view.Pane).(*ebiten.Image)
	for i, rows := range s.hatch {
		wide := 1.2 * l.Scale
		if i == s.list.chosen {
			wide = 2.4 * l.Scale
		}
		panes.Hatch(pane, &s.view.Projection, rows, l, wide)
	}
	h := s.chosen()
	if h == nil {
		return
	}
	for _, f := range h.Fill {
		ax, ay := s.view.At(f.A.X, f.A.Y)
		bx, by := s.view.At(f.B.X, f.B.Y)
		look.Dashed(pane, ax, ay, bx, by, 2.5*l.Scale, 7*l.Scale, l.Accent)
	}
	x, y := s.view.At(h.X, h.Y)
	says := strconv.Itoa(s.list.chosen + 1)
	look.Disc(pane, x, y, 10*l.Scale, l.Panel)
	look.Ring(pane, x, y, 10*l.Scale, 2*l.Scale, l.Mark)
	if image.Pt(int(x), int(y)).In(s.view.Pane.Inset(l.Px(10))) {
		look.Write(pane, says, l.Small, x, y-look.Tall(l.Small)/2, l.Ink, look.Middle)
	}
}
