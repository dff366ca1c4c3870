package app

import (
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// expected is where the place of a contact falls on a record that it was not marked on.
type expected struct {
	number int // of the contact
	at     survey.Sighting
}

// bracketed is a bracket on the record that is shown.
type bracketed struct {
	contact   *survey.Contact
	x, y      float64 // pixels
	starboard bool
	seen      bool // it was marked here; else its place falls here
}

// expect works out where contacts fall on the record shown that they were not seen on. It goes through every ping
// of the line, and is done when papers or rows are others than before.
func (s *recordStation) expect() {
	line := s.fall.rows.Line
	of := fmt.Sprintf("%d %d %p", s.desk.was, s.run(), line)
	if s.mark.of == of {
		return
	}
	s.mark.of, s.mark.expected = of, s.mark.expected[:0]
	for _, c := range s.desk.papers.Desk.Contacts {
		seen := false
		for _, p := range c.Passes {
			seen = seen || p.Run == s.run()
		}
		if seen {
			continue
		}
		if at, ok := line.Sighting(c.X, c.Y); ok {
			s.mark.expected = append(s.mark.expected, expected{c.Number, at})
		}
	}
}

// brackets are those of all contacts on the record that is shown.
func (s *recordStation) brackets() (all []bracketed) {
	f, line := &s.fall, s.logged()
	contacts := s.desk.papers.Desk.Contacts
	for k := range contacts {
		c := &contacts[k]
		for _, p := range c.Passes {
			if i := indexOf(line, p.Ping); p.Run == s.run() && i >= 0 {
				x, y := f.pixel(i, p.Slant/line.RangeScale, p.Starboard)
				all = append(all, bracketed{c, x, y, p.Starboard, true})
			}
		}
	}
	for _, e := range s.mark.expected {
		if c := s.desk.contact(e.number); c != nil {
			x, y := f.pixel(e.at.Index, e.at.Slant/line.RangeScale, e.at.Starboard)
			all = append(all, bracketed{c, x, y, e.at.Starboard, false})
		}
	}
	return all
}

// radius is how far off the contact the bracket stands, pixels.
func (b *bracketed) radius(s *recordStation, l *look.Look) float64 {
	return bracketRadius(b.contact, s.fall.part().PerBin*panes.RowBins/s.logged().RangeScale, l)
}

// under is the number of the contact whose bracket a pixel of the record lies in, 0 if it is none's.
func (s *recordStation) under(at image.Point, l *look.Look) int {
	if !at.In(s.fall.at) {
		return 0
	}
	for _, b := range s.brackets() {
		if math.Hypot(b.x-float64(at.X), b.y-float64(at.Y)) < b.radius(s, l) {
			return b.contact.Number
		}
	}
	return 0
}

// chooseContact has the contact under a press chosen.
func (s *recordStation) chooseContact(g *Game, at image.Point) {
	if !wentDown(ebiten.MouseButtonLeft) {
		return
	}
	if number := s.under(at, g.Look); number != 0 {
		s.desk.chosen = number
		s.desk.fresh()
		g.Rebuild()
	}
}

// drawBracket draws a bracket and the name beside it, with a question where the contact was not seen.
func (m *marking) drawBracket(pane *ebiten.Image, s *recordStation, b *bracketed, l *look.Look, labels *panes.Labels) {
	if !image.Pt(int(b.x), int(b.y)).In(s.fall.at.Inset(-l.Px(20))) {
		return
	}
	name, stroke := contactName(*b.contact), 1.2*l.Scale
	if !b.seen {
		name, stroke = name+"?", 0.8*l.Scale
	}
	if b.contact.Number == s.desk.chosen {
		stroke *= 2
	}
	radius := b.radius(s, l)
	bracket(pane, b.x, b.y, radius, stroke, l)
	left, top := int(b.x+radius+3*l.Scale), int(b.y-look.Tall(l.Small)/2)
	if b.starboard { // on the near side: the shadow falls on the other
		left = int(b.x - radius - 3*l.Scale - look.Wide(name, l.Small))
	}
	ground := image.Rect(left-l.Px(2), top, left+int(look.Wide(name, l.Small))+l.Px(2), top+int(look.Tall(l.Small)))
	if ground.In(s.fall.at) && labels.Try(ground) {
		look.Fill(pane, ground, look.Fade(l.Panel, onRecord))
		look.Write(pane, name, l.Small, float64(left), float64(top), l.Mark, look.Left)
	}
}
