package app

import (
	"fmt"
	"image"
	"math"
	"strconv"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// spot3 is a place on a line's record: a ping by its index, a slant range, and the side it was picked on.
type spot3 struct {
	i         int
	slant     float64 // metres, by the sound speed of the watch
	starboard bool
	set       bool
}

// mending puts the bottom track right: a piece at a time, straight from one place to another.
type mending struct {
	on       bool  // the keys have a cursor on the record
	cursor   spot3 // of the keys
	from, to spot3 // of the piece that is being laid
	pull     pulled
	typed    [4]string // of a piece that is typed: ping, slant, ping, slant
}

const (
	nudge    = 0.05 // metres, our own choice, as is
	nearBy   = 14.0 // how near to the track a drag begins that moves it, points
	manyRows = 20
)

func (m *mending) state() string { return fmt.Sprint(m.on, m.typed) }

// shareOf is a slant range of the watch as a share of the record's width.
func shareOf(s *recordStation, slant float64) float64 { return slant / s.logged().RangeScale }

func (m *mending) acts(s *recordStation) []act {
	d := s.desk
	r := &d.papers.Desk.Review
	return []act{
		{key: ebiten.KeyK, name: "K", label: "Mend by keys K", emphasis: chosenIf(m.on), help: "mend the bottom: arrows, and Enter at both ends",
			says: "A cursor for the keys: Up and Down choose the ping, Left and Right the slant range, Enter sets one end of a piece and then the other (K). Shift goes farther.", do: func(g *Game) { m.toggle(s); g.Rebuild() }},
		{key: ebiten.KeyZ, shift: withoutShift, name: "Z", label: "Undo mend Z", cannot: len(r.Pieces) == 0, help: "take back the last piece of bottom, lay it again",
			says: "Take back the piece of the bottom track that was laid last, on whichever line (Z).", do: func(*Game) { d.order(order.Command{Do: order.UndoBottom}) }},
		{key: ebiten.KeyZ, shift: withShift, name: "Shift + Z", label: "Redo mend", cannot: r.Undone() == 0, says: "Lay the piece again that was taken back (Shift + Z).",
			do: func(*Game) { d.order(order.Command{Do: order.RedoBottom}) }},
		{key: ebiten.KeyEscape, name: "Esc", help: "leave off what was begun", do: func(g *Game) {
			m.on, m.from, m.pull = false, spot3{}, pulled{}
			s.mark.leaveOff()
			g.Rebuild()
		}},
	}
}

// toggle gives the keys a cursor, in the middle of what is in sight.
func (m *mending) toggle(s *recordStation) {
	m.on, m.from = !m.on, spot3{}
	if f := &s.fall; m.on && f.rows != nil && len(f.rows.Rows) > 0 {
		from, to := f.seen()
		i := min(max((from+to)/2, 0), len(f.rows.Rows)-1)
		m.cursor = spot3{i: i, slant: m.bottomAt(s, i), set: true}
		m.fill(s)
	}
}

// bottomAt is the slant range of the bottom of a ping as it would be laid, by the sound speed of the watch.
func (m *mending) bottomAt(s *recordStation, i int) float64 {
	l := s.logged()
	if slant, ok := s.desk.papers.Desk.Review.BottomAt(l.Pings[i].Number); ok {
		return slant
	}
	return s.fall.rows.Line.Pings[i].Height / s.fall.rows.Line.RangeScale * l.RangeScale
}

// keys moves the cursor.
func (m *mending) keys(g *Game, s *recordStation) {
	if !m.on || s.fall.rows == nil {
		return
	}
	by := 1
	if shiftHeld() {
		by = manyRows
	}
	c := &m.cursor
	move := func(i int) {
		i = min(max(i, 0), len(s.fall.rows.Rows)-1)
		if m.from.set { // along a piece that is begun the cursor keeps its range
			c.i = i
		} else {
			*c = spot3{i: i, slant: m.bottomAt(s, i), set: true}
		}
		s.fall.inSight(c.i)
	}
	switch {
	case again(ebiten.KeyUp):
		move(c.i + by)
	case again(ebiten.KeyDown):
		move(c.i - by)
	case again(ebiten.KeyLeft):
		c.slant = max(c.slant-nudge*float64(by), nudge)
	case again(ebiten.KeyRight):
		c.slant = min(c.slant+nudge*float64(by), s.logged().RangeScale-nudge)
	case justPressed(ebiten.KeyEnter) || justPressed(ebiten.KeyNumpadEnter):
		if !m.from.set {
			m.from = *c
			return
		}
		m.lay(s, m.from, *c)
		m.from = spot3{}
	default:
		return
	}
	m.to = *c
	m.fill(s)
}

// input drags a piece of the track with the mouse.
func (m *mending) input(g *Game, s *recordStation, at image.Point, taken bool) {
	i, share, starboard, ok := s.fall.under(at)
	here := spot3{i, share * s.logged().RangeScale, starboard, ok}
	near := false
	if ok && !taken {
		x, _ := s.fall.pixel(i, shareOf(s, m.bottomAt(s, i)), starboard)
		near = math.Abs(x-float64(at.X)) < nearBy*g.Look.Scale
	}
	begun, ended := m.pull.follow(at, near)
	switch {
	case begun:
		m.on, m.from, m.to = false, here, here
	case m.pull.held && ok:
		m.to = here
	case ended:
		if m.from.set && m.from.i != m.to.i {
			m.lay(s, m.from, m.to)
		}
		m.from = spot3{}
	}
	switch {
	case near && m.pull.held, near:
		ebiten.SetCursorShape(ebiten.CursorShapeEWResize)
	default:
		ebiten.SetCursorShape(ebiten.CursorShapeDefault)
	}
}

// lay gives the order for a piece.
func (m *mending) lay(s *recordStation, a, b spot3) {
	if a.i > b.i {
		a, b = b, a
	}
	pings := s.logged().Pings
	s.desk.order(order.Command{Do: order.BottomAt, Ping: pings[a.i].Number, Ping2: pings[b.i].Number, Value: round3(a.slant), Value2: round3(b.slant)})
}

// round3 is to a millimetre: the log is read by people too.
func round3(v float64) float64 { return math.Round(v*1000) / 1000 }

// fill has the fields say what the keys have chosen.
func (m *mending) fill(s *recordStation) {
	p := s.logged().Pings
	a := m.cursor
	if m.from.set {
		a = m.from
	}
	m.typed = [4]string{strconv.FormatUint(p[a.i].Number, 10), fmt.Sprintf("%.2f", a.slant), strconv.FormatUint(p[m.cursor.i].Number, 10), fmt.Sprintf("%.2f", m.cursor.slant)}
}

// fields are for a piece that is typed: it is laid when the last is entered.
func (m *mending) fields(g *Game, s *recordStation) []widget.PreferredSizeLocateableWidget {
	l, d := g.Look, s.desk
	out := []widget.PreferredSizeLocateableWidget{}
	for k, f := range []struct {
		label, hint, says string
		wide              float64
	}{
		{"Bottom from ping", "ping", "The ping at which the piece of bottom begins.", 70}, {"at", "m", "The slant range of the bottom there, metres.", 56},
		{"to ping", "ping", "The ping at which it ends.", 70}, {"at", "m", "The slant range of the bottom there, metres. Entered, the piece is laid.", 56},
	} {
		out = append(out, l.Label(f.label, l.Small, l.Soft, 0), d.field(g, f.hint, m.typed[k], f.says, f.wide, func(says string) {
			m.typed[k] = says
			if k < 3 {
				d.nextField(g)
				return
			}
			m.layTyped(g, s)
		}))
	}
	return out
}

func (m *mending) layTyped(g *Game, s *recordStation) {
	var v [4]float64
	for k, text := range m.typed {
		n, err := strconv.ParseFloat(text, 64)
		if err != nil || n <= 0 {
			g.say(fmt.Sprintf("a piece of bottom wants two pings and two slant ranges in metres; %q is neither", text))
			return
		}
		v[k] = n
	}
	s.desk.order(order.Command{Do: order.BottomAt, Ping: uint64(v[0]), Value: v[1], Ping2: uint64(v[2]), Value2: v[3]})
}

// draw draws the pieces that were laid and the one that is being laid.
func (m *mending) draw(pane *ebiten.Image, s *recordStation, l *look.Look, labels *panes.Labels) {
	line := s.logged()
	piece := func(b *survey.BottomPiece, says string) {
		i, j := indexOf(line, b.From), indexOf(line, b.To)
		if i < 0 || j < 0 {
			return
		}
		for side := range 2 {
			x0, y0 := s.fall.pixel(i, b.Slant/line.RangeScale, side == 1)
			x1, y1 := s.fall.pixel(j, b.SlantB/line.RangeScale, side == 1)
			from, to, ok := panes.Inside(x0, y0, x1, y1, s.fall.at)
			if i == j || !ok {
				continue
			}
			dx, dy := x1-x0, y1-y0
			look.Stroke(pane, x0+from*dx, y0+from*dy, x0+to*dx, y0+to*dy, 4*l.Scale, l.Panel)
			look.Stroke(pane, x0+from*dx, y0+from*dy, x0+to*dx, y0+to*dy, 2*l.Scale, l.Mark)
			for _, e := range [2][2]float64{{x0, y0}, {x1, y1}} {
				r := image.Rect(int(e[0]-3*l.Scale), int(e[1]-3*l.Scale), int(e[0]+3*l.Scale), int(e[1]+3*l.Scale))
				look.Fill(pane, r.Inset(-1), l.Panel)
				look.Fill(pane, r, l.Mark)
			}
			if side == 1 && says != "" {
				m := (from + to) / 2
				x, y := int(x0+m*dx+8*l.Scale), int(y0+m*dy)
				ground := image.Rect(x, y, x+int(look.Wide(says, l.Small))+l.Px(6), y+int(look.Tall(l.Small)))
				if ground.In(s.fall.at) && labels.Try(ground) {
					look.Fill(pane, ground, look.Fade(l.Panel, onRecord))
					look.Write(pane, says, l.Small, float64(ground.Min.X+l.Px(3)), float64(ground.Min.Y), l.Ink, look.Left)
				}
			}
		}
	}
	r := &s.desk.papers.Desk.Review
	for i := range r.Pieces {
		piece(&r.Pieces[i], "by hand")
	}
	if m.from.set && m.from.i < len(line.Pings) && m.to.i < len(line.Pings) {
		a, b := m.from, m.to
		if a.i > b.i {
			a, b = b, a
		}
		piece(&survey.BottomPiece{From: line.Pings[a.i].Number, To: line.Pings[b.i].Number, Slant: a.slant, SlantB: b.slant}, "")
	}
	if m.on && m.cursor.i < len(line.Pings) {
		m.drawCursor(pane, s, l, labels)
	}
}

func (m *mending) drawCursor(pane *ebiten.Image, s *recordStation, l *look.Look, labels *panes.Labels) {
	c, f := m.cursor, &s.fall
	_, y := f.pixel(c.i, 0, true)
	look.Dotted(pane, float64(f.at.Min.X), y, float64(f.at.Max.X), y, 1.5*l.Scale, 3*l.Scale, 5*l.Scale, l.Mark)
	for side := range 2 {
		x, y := f.pixel(c.i, shareOf(s, c.slant), side == 1)
		look.Ring(pane, x, y, 6*l.Scale, 3.4*l.Scale, l.Panel)
		look.Ring(pane, x, y, 6*l.Scale, 1.8*l.Scale, l.Mark)
	}
	says := fmt.Sprintf("ping %d, bottom at %.2f m: Enter begins a piece", s.logged().Pings[c.i].Number, c.slant)
	if m.from.set {
		says = fmt.Sprintf("ping %d, bottom at %.2f m: Enter ends it here", s.logged().Pings[c.i].Number, c.slant)
	}
	ground := image.Rect(f.at.Min.X+l.Px(6), int(y)+l.Px(3), f.at.Min.X+l.Px(12)+int(look.Wide(says, l.Small)), int(y)+l.Px(3)+int(look.Tall(l.Small)))
	if ground.Max.Y > f.at.Max.Y {
		ground = ground.Sub(image.Pt(0, ground.Dy()+l.Px(6)))
	}
	labels.Keep(ground)
	look.Fill(pane, ground, l.Panel)
	look.Write(pane, says, l.Small, float64(ground.Min.X+l.Px(3)), float64(ground.Min.Y), l.Ink, look.Left)
}

// indexOf is a ping of a line by its number, or that next to it; -1 for one that is not on the line.
func indexOf(l *survey.LineRecord, ping uint64) int {
	if !within(l, ping) {
		return -1
	}
	from, to := 0, len(l.Pings)-1
	for from < to {
		if at := (from + to) / 2; l.Pings[at].Number < ping {
			from = at + 1
		} else {
			to = at
		}
	}
	return from
}
