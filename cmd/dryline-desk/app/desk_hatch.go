package app

import (
	"image"
	"math"
	"slices"
	"strconv"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/survey/coverage"

	"github.com/hajimehoshi/ebiten/v2"
)

// spansOf are cells in rows.
func spansOf(cells []coverage.Point, cell float64) []span {
	sorted := slices.Clone(cells)
	slices.SortFunc(sorted, func(a, b coverage.Point) int {
		if a.Y != b.Y {
			return int(math.Copysign(1, a.Y-b.Y))
		}
		return int(math.Copysign(1, a.X-b.X))
	})
	var out []span
	for _, c := range sorted {
		if n := len(out) - 1; n >= 0 && out[n].y == c.Y && c.X-out[n].x1 < 0.6*cell {
			out[n].x1 = c.X + cell/2
			continue
		}
		out = append(out, span{c.Y, c.X - cell/2, c.X + cell/2})
	}
	return out
}

// drawHolidays hatches what was not seen, numbers it, and draws the lines that would fill the one chosen.
func (s *holidayStation) drawHolidays(dst *ebiten.Image, l *look.Look) {
	pane := dst.SubImage(s.view.Pane).(*ebiten.Image)
	every := 6 * l.Scale
	for i, spans := range s.hatch {
		ink, wide := l.Mark, 1.2*l.Scale
		if i == s.list.chosen {
			wide = 2.4 * l.Scale
		}
		last := math.Inf(-1)
		for _, row := range spans {
			x0, y := s.view.At(row.x0, row.y)
			x1, _ := s.view.At(row.x1, row.y)
			if math.Abs(y-last) < every && y != last {
				continue
			}
			last = y
			if y < float64(s.view.Pane.Min.Y) || y > float64(s.view.Pane.Max.Y) || x1 < float64(s.view.Pane.Min.X) || x0 > float64(s.view.Pane.Max.X) {
				continue
			}
			look.Stroke(pane, x0, y, max(x1, x0+2), y, wide, ink)
		}
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
