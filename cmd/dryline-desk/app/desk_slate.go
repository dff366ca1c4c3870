package app

import (
	"fmt"
	"image"
	"strconv"
	"strings"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// item is something that is set at the desk: typed, or chosen from several.
type item struct {
	name, says string          // what it is, and how it stands
	about      string          // in plain words
	typed      func(string)    // what is done with what is typed; nil for a choice
	now        string          // what the field has at first
	choose     func() *chooser // for a choice
}

// slate is a list of items, the chosen one to be set under it.
type slate struct {
	roster
	desk  *Desk
	items []item
	about image.Rectangle
}

// set puts the items on it.
func (s *slate) set(items []item) {
	s.items, s.plain = items, true
	s.rows = s.rows[:0]
	for _, it := range items {
		s.rows = append(s.rows, entryLine{it.name, it.says})
	}
	s.chosen = max(min(s.chosen, len(items)-1), 0)
}

// build lays it into a rectangle: the list, what the chosen item is, and the field for it.
func (s *slate) build(g *Game, r image.Rectangle, put func(widget.PreferredSizeLocateableWidget, image.Rectangle)) {
	l := g.Look
	if len(s.items) > 0 {
		it := &s.items[s.chosen]
		var w widget.PreferredSizeLocateableWidget
		if it.typed != nil {
			f := s.desk.field(g, it.name, it.now, "Type it: "+it.name+".", float64(r.Dx())/l.Scale-2, func(text string) {
				if text != it.now { // left as it was it is no order
					it.typed(text)
				}
			})
			w = f
		} else {
			w = explained(g, l.Button("Choose: Enter", look.Plain, func() { s.desk.chooser = it.choose() }), "Choose: "+it.name+" (Enter).")
		}
		r = underneath(g, r, put, w)
	}
	s.about = r
	s.about.Min.Y = r.Max.Y - 5*(int(look.Tall(l.Small))+l.Px(1)) - l.Px(8)
	s.at = r
	s.at.Max.Y = s.about.Min.Y
}

// input takes keys and pointer; it reports whether another item was chosen.
func (s *slate) input(g *Game, at image.Point, taken bool) bool {
	moved, clicked := s.roster.input(g, at, taken)
	if len(s.items) == 0 {
		return false
	}
	if justPressed(ebiten.KeyEnter) || justPressed(ebiten.KeyNumpadEnter) {
		if it := &s.items[s.chosen]; it.typed == nil {
			s.desk.chooser = it.choose()
		} else {
			s.desk.opening = true
		}
	}
	if moved || clicked {
		g.Rebuild()
	}
	return moved
}

// draw letters it.
func (s *slate) draw(dst *ebiten.Image, l *look.Look) {
	s.roster.draw(dst, l)
	look.Fill(dst, s.about, l.Panel)
	if len(s.items) == 0 {
		return
	}
	look.Fill(dst, image.Rect(s.about.Min.X+l.Px(8), s.about.Min.Y, s.about.Max.X-l.Px(8), s.about.Min.Y+max(l.Px(1), 1)), l.Rule)
	y := float64(s.about.Min.Y + l.Px(5))
	lines := wrapped(s.items[s.chosen].about, l.Small, float64(s.about.Dx()-l.Px(24)))
	for i, line := range lines[:min(len(lines), 5)] {
		if i == 4 && len(lines) > 5 {
			line = look.Fitted(line+" ...", l.Small, s.about.Dx()-l.Px(24))
		}
		look.Write(dst, line, l.Small, float64(s.about.Min.X+l.Px(12)), y, l.Soft, look.Left)
		y += look.Tall(l.Small) + float64(l.Px(1))
	}
}

// typedNumber has something done with a number that is typed; any other text is said to be no number.
func (d *Desk) typedNumber(g *Game, do func(v float64)) func(string) {
	return func(s string) {
		v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(s), ",", ".", 1), 64)
		if err != nil {
			g.say(fmt.Sprintf("%q is no number", s))
			return
		}
		do(v)
	}
}
