package app

import (
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// marked says what the next click or drag on the record does to contacts.
type marked int

const (
	noMark marked = iota
	markNew
	markAgain
	markLength
	markWidth
	markShadow
)

// marking marks contacts on the record of a line, the one that is chosen among them on other passes.
type marking struct {
	what marked
	pull pulled
	from spot3
	to   spot3

	expected []expected // contacts on the record that is shown, of the papers and the rows:
	of       string
}

func (m *marking) leaveOff() { m.what, m.pull, m.from = noMark, pulled{}, spot3{} }

// toggle turns to one way of marking, or from it.
func (m *marking) toggle(g *Game, what marked) {
	was := m.what
	m.leaveOff()
	if was != what {
		m.what = what
	}
	g.Rebuild()
}

func (m *marking) acts(s *recordStation) []act {
	chosen := s.desk.contact(s.desk.chosen) != nil
	out := []act{{key: ebiten.KeyM, name: "M", label: "Mark M", emphasis: chosenIf(m.what == markNew), help: "the next click marks a new contact",
		says: "The next click on the record marks a new contact (M).", do: func(g *Game) { m.toggle(g, markNew) }}}
	name := "it"
	if c := s.desk.contact(s.desk.chosen); c != nil {
		name = contactName(*c)
	}
	out = append(out, act{key: ebiten.KeyS, name: "S", label: "Seen here too S", emphasis: chosenIf(m.what == markAgain), cannot: !chosen, help: "the next click shows the chosen contact on this pass",
		says: "The next click says that " + name + " was seen here on this pass as well (S). The contact is chosen at the contacts (F5).", do: func(g *Game) { m.toggle(g, markAgain) }})
	for i, e := range survey.Extents() {
		what := markLength + marked(i)
		a := act{key: []ebiten.Key{ebiten.KeyDigit1, ebiten.KeyDigit2, ebiten.KeyDigit3}[i], name: fmt.Sprint(i + 1), label: fmt.Sprintf("%s %d", e, i+1), emphasis: chosenIf(m.what == what), cannot: !chosen,
			says: fmt.Sprintf("A drag on the record measures the %s of %s (%d).", e, name, i+1), do: func(g *Game) { m.toggle(g, what) }}
		if i == 0 {
			a.help = "a drag measures the chosen contact: length, width, shadow"
		}
		out = append(out, a)
	}
	return out
}

// input marks and measures.
func (m *marking) input(g *Game, s *recordStation, at image.Point, taken bool) {
	i, share, starboard, ok := s.fall.under(at)
	here := spot3{i, share * s.fall.rows.Line.RangeScale, starboard, ok}
	begun, ended := m.pull.follow(at, ok && !taken)
	ebiten.SetCursorShape(ebiten.CursorShapeCrosshair)
	switch {
	case begun:
		m.from, m.to = here, here
		if m.what == markNew || m.what == markAgain {
			m.point(g, s, i, share, starboard)
			m.leaveOff()
			g.Rebuild()
		}
	case m.pull.held && ok:
		m.to = here
	case ended:
		m.measure(s)
		m.from = spot3{}
	}
	if m.what == noMark {
		ebiten.SetCursorShape(ebiten.CursorShapeDefault)
	}
}

// point marks a contact at a place of the record.
func (m *marking) point(g *Game, s *recordStation, i int, share float64, starboard bool) {
	x, y, ok := s.fall.ground(i, share, starboard)
	if !ok {
		g.say("In the water, and where the fish's place is not to be trusted, there is no ground to mark")
		return
	}
	o := order.Command{Do: order.Mark, X: x, Y: y, Ping: s.fall.rows.Line.Pings[i].Number}
	if m.what == markAgain {
		o.Do, o.Number = order.SightContact, s.desk.chosen
	}
	if o.Do == order.Mark {
		s.desk.chosen = newestContact
	}
	s.desk.order(o)
}

// measure measures the chosen contact from where the drag began to where it ended.
func (m *marking) measure(s *recordStation) {
	scale := s.fall.rows.Line.RangeScale
	x, y, ok := s.fall.ground(m.from.i, m.from.slant/scale, m.from.starboard)
	x2, y2, ok2 := s.fall.ground(m.to.i, m.to.slant/scale, m.to.starboard)
	if !m.from.set || !ok || !ok2 || m.from == m.to || s.desk.contact(s.desk.chosen) == nil {
		return
	}
	s.desk.order(order.Command{Do: order.Measure, Number: s.desk.chosen, Text: string(survey.Extents()[m.what-markLength]), X: x, Y: y, X2: x2, Y2: y2, Value: s.fall.groundPixel(),
		Ping: s.fall.rows.Line.Pings[m.from.i].Number})
}

// draw brackets the contacts, and draws the measure that is being taken.
func (m *marking) draw(g *Game, pane *ebiten.Image, s *recordStation, l *look.Look, labels *panes.Labels) {
	f := &s.fall
	for _, b := range s.brackets() {
		m.drawBracket(pane, s, &b, l, labels)
	}
	if !m.from.set || !m.pull.held {
		return
	}
	scale := f.rows.Line.RangeScale
	x0, y0 := f.pixel(m.from.i, m.from.slant/scale, m.from.starboard)
	x1, y1 := f.pixel(m.to.i, m.to.slant/scale, m.to.starboard)
	look.Stroke(pane, x0, y0, x1, y1, 2*l.Scale, l.Mark)
	ax, ay, ok := f.ground(m.from.i, m.from.slant/scale, m.from.starboard)
	bx, by, ok2 := f.ground(m.to.i, m.to.slant/scale, m.to.starboard)
	if ok && ok2 {
		figure(pane, image.Pt(int(x1), int(y1)), f.at, fmt.Sprintf("%s %.1f m", survey.Extents()[m.what-markLength], math.Hypot(bx-ax, by-ay)), l)
	}
}

// contact is a contact of the desk by its number, nil if there is none.
func (d *Desk) contact(number int) *survey.Contact {
	for i := range d.papers.Desk.Contacts {
		if c := &d.papers.Desk.Contacts[i]; c.Number == number {
			return c
		}
	}
	return nil
}
