package app

import (
	"fmt"
	"image"
	"strconv"
	"strings"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// contactStation is where contacts are judged: the list, the chip of the one that is chosen, its measures, and
// what is said of it.
type contactStation struct {
	still
	desk  *Desk
	list  roster
	slate slate
	text  roll
	pane  image.Rectangle // of the chip

	task    *crew.Task[*crew.Chip]
	asked   string // which chip is shown, or coming
	chip    *crew.Chip
	mosaic  *panes.Mosaic // it is drawn from
	caption string
	pass    int // that is shown, by its index, of the contact:
	shows   int
}

func newContactStation(d *Desk) *contactStation {
	s := &contactStation{desk: d}
	s.slate.desk = d
	return s
}

func (s *contactStation) name() string { return "Contacts" }
func (s *contactStation) about() string {
	return "Each contact with its chip and its measures: what it is, and what comes of it."
}

func (s *contactStation) undecided() (n int) {
	for i := range s.desk.papers.Desk.Contacts {
		if s.desk.papers.Desk.Contacts[i].Action == "" {
			n++
		}
	}
	return n
}

func (s *contactStation) says() [2]string {
	n := len(s.desk.papers.Desk.Contacts)
	return [2]string{some(n, "contact", "contacts"), some(s.undecided(), "undecided", "undecided")}
}

func (s *contactStation) fresh() {
	p := s.desk.papers.Desk
	s.list.rows = s.list.rows[:0]
	at := 0
	for i := range p.Contacts {
		c := &p.Contacts[i]
		if c.Number == s.desk.chosen {
			at = i
		}
		action := "undecided"
		if c.Action != "" {
			action = string(c.Action)
		}
		s.list.rows = append(s.list.rows, entryLine{contactName(*c) + ", " + className(*c), action + ", " + some(len(c.Passes), "pass", "passes")})
	}
	s.list.chosen = max(min(at, len(p.Contacts)-1), 0)
	s.slate.set(s.items())
}

// take takes the contact that the list has chosen.
func (s *contactStation) take() {
	p := s.desk.papers.Desk
	s.desk.chosen = 0
	if s.list.chosen < len(p.Contacts) {
		s.desk.chosen = p.Contacts[s.list.chosen].Number
	}
}

// record is the station of the record.
func (d *Desk) record() *recordStation {
	for _, s := range d.stations {
		if r, ok := s.(*recordStation); ok {
			return r
		}
	}
	return &recordStation{desk: d} // while the desk is being laid out
}

// items lists all that can be said of the contact chosen.
func (s *contactStation) items() []item {
	d := s.desk
	c := d.contact(s.desk.chosen)
	if c == nil {
		return nil
	}
	n := c.Number
	text := func(name, now, about string, do order.Do) item {
		says := now
		if says == "" {
			says = "nothing said"
		}
		return item{name: name, says: says, now: now, about: about, typed: func(t string) { d.order(order.Command{Do: do, Number: n, Text: t}) }}
	}
	sure, now := "nothing said", ""
	if c.Confidence != nil {
		sure = fmt.Sprintf("%.0f %%", 100**c.Confidence)
		now = strconv.FormatFloat(100**c.Confidence, 'f', 0, 64)
	}
	action := "undecided"
	if c.Action != "" {
		action = string(c.Action)
	}
	return []item{
		text("Name", contactName(*c), "What it is called on the chart and in the reports.", order.NameContact),
		d.choice("Class", "What it is taken for.", string(c.Class), true, options(survey.Classes(), nil), func(v string) order.Command {
			return order.Command{Do: order.ClassContact, Number: n, Text: v}
		}),
		{name: "How sure of it", says: sure, now: now, about: "How sure you are of the class, percent.", typed: func(t string) {
			v, err := strconv.ParseFloat(strings.TrimSuffix(strings.Replace(t, ",", ".", 1), "%"), 64)
			if err != nil {
				d.say(fmt.Sprintf("%q is no number", t))
				return
			}
			d.order(order.Command{Do: order.RateContact, Number: n, Value: v / 100})
		}},
		text("Looks like", c.Description, "What the echo and the shadow look like, in words: for whoever has not seen the record.", order.DescribeContact),
		{name: "What comes of it", says: action, about: "None: it needs nothing more. Investigate: lines about it. Re-run: the line was too poor to tell. Dismiss: it is nothing, for the reason under Why.", choose: func() *chooser {
			ch := newChooser("What comes of " + contactName(*c))
			for _, a := range survey.Actions() {
				note := ""
				if a == survey.Dismiss && c.Reason == "" {
					note = "say why first"
				}
				ch.offer(string(a), note, c.Action == a, func() {
					d.order(order.Command{Do: order.ContactAction, Number: n, Text: string(a), Reason: s.reason(c)})
				})
			}
			return ch
		}},
		{name: "Why", says: whyOr(s.reason(c), "nothing said"), now: s.reason(c), about: "The reason for what comes of it. To dismiss a contact takes one.", typed: func(t string) {
			s.reasons()[n] = t
			if c.Action != "" {
				d.order(order.Command{Do: order.ContactAction, Number: n, Text: string(c.Action), Reason: t})
				return
			}
			s.slate.set(s.items())
		}},
		text("Remarks", c.Remarks, "Anything else there is to say of it.", order.RemarkContact),
	}
}

// reasons are typed before the action that they are for.
func (s *contactStation) reasons() map[int]string {
	if s.desk.reasons == nil {
		s.desk.reasons = map[int]string{}
	}
	return s.desk.reasons
}

func (s *contactStation) reason(c *survey.Contact) string {
	if typed, ok := s.desk.reasons[c.Number]; ok {
		return typed
	}
	return c.Reason
}

func whyOr(says, otherwise string) string {
	if says == "" {
		return otherwise
	}
	return says
}

func (s *contactStation) acts() []act {
	d := s.desk
	c := d.contact(s.desk.chosen)
	return []act{
		{key: ebiten.KeyR, name: "R", label: "On the record R", cannot: c == nil || len(c.Passes) == 0, help: "where it was seen on the record", says: "Look at it where it was seen on the record (R): to measure it, or to show it on other passes.", do: func(g *Game) { s.onRecord(g) }},
		{key: ebiten.KeyN, name: "N", label: "Next pass N", cannot: c == nil || len(c.Passes) < 2, help: "its chip on the next pass", says: "The chip from the next pass that it was seen on (N).", do: func(*Game) { s.pass = (s.pass + 1) % len(c.Passes) }},
		{key: ebiten.KeyZ, shift: withoutShift, name: "Z", label: "Undo Z", cannot: !d.papers.Desk.CanUndo(), help: "undo, redo what was done to contacts", says: "Undo what was last done to contacts (Z).", do: func(*Game) { d.order(order.Command{Do: order.UndoContact}) }},
		{key: ebiten.KeyZ, shift: withShift, name: "Shift + Z", label: "Redo", cannot: !d.papers.Desk.CanRedo(), says: "Redo what was undone (Shift + Z).", do: func(*Game) { d.order(order.Command{Do: order.RedoContact}) }},
		{key: ebiten.KeyDelete, name: "Delete", label: "Drop", cannot: c == nil, help: "drop the contact", says: "Take the chosen contact off the list (Delete): it is none after all. Undo brings it back.", do: func(*Game) { d.order(order.Command{Do: order.DeleteContact, Number: s.desk.chosen}) }},
		{key: ebiten.KeyComma, name: ",", help: "the contact before, the next", do: func(g *Game) { s.choose(g, s.list.chosen-1) }},
		{key: ebiten.KeyPeriod, name: ".", do: func(g *Game) { s.choose(g, s.list.chosen+1) }},
	}
}

func (s *contactStation) choose(g *Game, n int) {
	s.list.choose(g.Look, n)
	s.take()
	s.slate.set(s.items())
	g.Rebuild()
}

// onRecord shows the contact where it was seen.
func (s *contactStation) onRecord(g *Game) {
	c := s.desk.contact(s.desk.chosen)
	if c == nil || len(c.Passes) == 0 {
		return
	}
	pass := c.Passes[0]
	r := s.desk.record()
	r.lines.chosen = max(min(pass.Run, len(r.lines.rows))-1, 0)
	r.seek = pass.Ping
	for i, st := range s.desk.stations {
		if st == station(r) {
			s.desk.turn(g, i)
		}
	}
}

func (s *contactStation) show(*Game) { s.ask() }

func (s *contactStation) state() string { return fmt.Sprint(s.desk.chosen, s.slate.chosen) }

func (s *contactStation) build(g *Game, r image.Rectangle, put func(widget.PreferredSizeLocateableWidget, image.Rectangle)) {
	l := g.Look
	gap := l.Px(4)
	r = underneath(g, r, put, flow(g, s.acts(), r.Dx()))
	third := r.Dx() / 4
	s.list.at = image.Rect(r.Min.X, r.Min.Y, r.Min.X+third, r.Max.Y)
	right := image.Rect(r.Max.X-max(third, l.Px(280)), r.Min.Y, r.Max.X, r.Max.Y)
	middle := image.Rect(s.list.at.Max.X+gap, r.Min.Y, right.Min.X-gap, r.Max.Y)
	side := min(middle.Dx(), middle.Dy()*3/5)
	s.pane = image.Rect(middle.Min.X, middle.Min.Y, middle.Max.X, middle.Min.Y+side)
	s.text.at = image.Rect(middle.Min.X, s.pane.Max.Y+gap, middle.Max.X, middle.Max.Y)
	s.slate.build(g, right, put)
}

func (s *contactStation) input(g *Game, at image.Point, taken bool) {
	before := s.list.chosen
	if s.list.point(g, at, taken); s.list.chosen != before {
		s.choose(g, s.list.chosen)
	}
	s.slate.input(g, at, taken)
	s.text.input(g, at)
}

func (s *contactStation) draw(g *Game, dst *ebiten.Image) {
	l, d := g.Look, s.desk
	s.list.draw(dst, l)
	s.slate.draw(dst, l)
	look.Fill(dst, s.pane, l.Sunk)
	c := d.contact(s.desk.chosen)
	under := int(look.Tall(l.Small)) + l.Px(6)
	room := s.pane
	room.Max.Y -= under
	say := func(says string) {
		y := float64(room.Min.Y + room.Dy()/2)
		for _, line := range wrapped(says, l.Body, float64(room.Dx()-l.Px(20))) {
			look.Write(dst, line, l.Body, float64(room.Min.X+room.Max.X)/2, y, l.Soft, look.Middle)
			y += look.Tall(l.Body)
		}
	}
	switch {
	case c == nil:
		say("No contact is marked. Mark one on the record (F3, then M).")
	case s.task != nil:
		bar(dst, l, room, s.task.Share(), "The chip is cut from the record.")
	case s.chip != nil:
		s.drawChip(g, dst, room, c)
		look.Write(dst, look.Fitted(s.caption, l.Small, s.pane.Dx()-l.Px(8)), l.Small, float64(s.pane.Min.X+l.Px(4)), float64(room.Max.Y+l.Px(3)), l.Ink, look.Left)
	case len(c.Passes) == 0:
		say("It was marked on the mosaic; no record shows it by itself. Show it on a pass (F3, then S).")
	default:
		say(s.caption)
	}
	s.text.draw(dst, l, func(t *sheet) { s.letter(t, c) })
}

func (s *contactStation) inspect(panes map[string]Rect, state map[string]any) {
	panes["chip"] = rect(s.pane)
	state["chosen"], state["chip"], state["undecided"] = s.desk.chosen, s.chip != nil, s.undecided()
	if len(s.slate.items) > 0 {
		state["setting"] = s.slate.items[s.slate.chosen].name
	}
}

func (s *contactStation) close() {
	if s.task != nil {
		s.task.Cancel()
	}
	s.setChip(nil, "")
}
