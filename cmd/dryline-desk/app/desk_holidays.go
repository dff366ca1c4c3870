package app

import (
	"fmt"
	"image"
	"math"
	"slices"
	"strconv"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/survey"
	"dryline/sim/survey/coverage"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// holidayStation shows what was not seen of the area, why, and which lines would fill it; and lays lines about
// contacts.
type holidayStation struct {
	still
	desk *Desk
	list roster
	text roll
	view view

	task  *crew.Task[*crew.Cover]
	cover *crew.Cover
	of    string           // what it is of
	hatch [][]coverage.Row // by holiday
	off   float64          // of lines about a contact, metres
	way   float64          // grid bearing of the first pair, degrees
}

func newHolidayStation(d *Desk) *holidayStation { return &holidayStation{desk: d, off: 25} }

func (s *holidayStation) name() string { return "Holidays" }
func (s *holidayStation) about() string {
	return "Ground of the area that was not seen, why, and the lines that would fill it."
}

func (s *holidayStation) says() [2]string {
	if s.cover == nil {
		return [2]string{"not looked for yet", ""}
	}
	return [2]string{some(len(s.cover.Holidays), "holiday", "holidays"), fmt.Sprintf("%s %% seen once", survey.Percent(s.seen(), 1))}
}

// seen is the share of the area that was, percent.
func (s *holidayStation) seen() float64 {
	if m := s.cover.Map; m.Inside > 0 {
		return 100 * float64(m.Once) / float64(m.Inside)
	}
	return 0
}

func (s *holidayStation) fresh() {}

// wants says what the holidays are to be of.
func (s *holidayStation) wants() string {
	p := s.desk.papers.Desk
	return fmt.Sprint(len(p.Lines), len(p.Review.Rejected), p.Review.Rejected) + fmt.Sprintf("%p", p.Worked)
}

func (s *holidayStation) work(g *Game) {
	if s.task == nil && s.desk.station() == station(s) && s.of != s.wants() {
		s.of = s.wants()
		s.task = s.desk.bench.Cover(s.desk.papers)
	}
	if s.task == nil {
		return
	}
	cover, err, done := s.task.Came()
	if !done {
		return
	}
	s.task = nil
	if err != nil {
		g.say("Holidays could not be looked for: " + err.Error())
		return
	}
	s.cover = cover
	s.list.rows, s.hatch = s.list.rows[:0], s.hatch[:0]
	for i := range cover.Holidays {
		h := &cover.Holidays[i]
		s.list.rows = append(s.list.rows, entryLine{fmt.Sprintf("%d. %.0f m², %.1f m at its widest", i+1, h.SquareMetres, h.Widest), h.Reason})
		s.hatch = append(s.hatch, coverage.Rows(h.Cells(), cover.Map.Cell))
	}
	s.list.chosen = max(min(s.list.chosen, len(s.list.rows)-1), 0)
	g.Rebuild()
}

// chosen is the holiday that is chosen, nil if there is none.
func (s *holidayStation) chosen() *coverage.Holiday {
	if s.cover == nil || s.list.chosen >= len(s.cover.Holidays) {
		return nil
	}
	return &s.cover.Holidays[s.list.chosen]
}

const tooLate = "The watch is over: nothing sails any more, and no line can be added. Say it in the report."

func (s *holidayStation) acts() []act {
	d := s.desk
	h := s.chosen()
	c := d.contact(d.chosen)
	about := "Lines about a contact A"
	if c != nil {
		about = "Lines about " + contactName(*c) + " A"
	}
	fillSays, aboutSays := "Add the lines that fill the chosen holiday, to be run when you are back at the watch (L).", "Add two pairs of lines at right angles that pass the contact chosen at the contacts (A)."
	if d.over() {
		fillSays, aboutSays = tooLate, tooLate
	}
	return []act{
		{key: ebiten.KeyL, name: "L", label: "Add lines that fill it L", cannot: h == nil || len(h.Fill) == 0 || d.over(), help: "add the lines that fill the chosen holiday", says: fillSays, do: func(g *Game) { s.fill(g) }},
		{key: ebiten.KeyA, name: "A", label: about, cannot: c == nil || d.over(), help: "add lines about the chosen contact", says: aboutSays, do: func(g *Game) { s.aboutContact(g, c) }},
		{key: ebiten.KeyW, name: "W", label: "Whole W", help: "the whole plan on the chart", says: "Show the whole plan (W). The wheel zooms, a drag moves the chart.", do: func(*Game) { s.view.moved = false; d.fit(&s.view.Projection) }},
	}
}

// free is a stem of names for lines that none has yet.
func (d *Desk) free(stem string) string {
	for n := 1; ; n++ {
		name := stem + strconv.Itoa(n)
		if !slices.ContainsFunc(d.lines(), func(l exercise.Line) bool { return len(l.Name) >= len(name) && l.Name[:len(name)] == name }) {
			return name
		}
	}
}

// fill adds the lines that fill the holiday chosen.
func (s *holidayStation) fill(g *Game) {
	h := s.chosen()
	stem := s.desk.free("fill")
	for i, l := range h.Fill {
		s.desk.order(order.Command{Do: order.AddLine, Line: fmt.Sprintf("%s-%d", stem, i+1), X: round3(l.A.X), Y: round3(l.A.Y), X2: round3(l.B.X), Y2: round3(l.B.Y)})
	}
	g.say(fmt.Sprintf("%s: choose %s at the watch (N) and run it", some(len(h.Fill), "line is added", "lines are added"), stem+"-1"))
}

// aboutContact adds lines about a contact.
func (s *holidayStation) aboutContact(g *Game, c *survey.Contact) {
	stem := s.desk.free("about")
	s.desk.order(order.Command{Do: order.LinesAbout, Number: c.Number, Line: stem, Value: s.off, Value2: s.way * math.Pi / 180})
	if s.desk.clerks.View().Complaints == s.desk.complaint {
		g.say(fmt.Sprintf("Four lines about %s are added, %s-1 to %s-4", contactName(*c), stem, stem))
	}
}

func (s *holidayStation) state() string {
	return fmt.Sprint(s.list.chosen, s.of, s.off, s.way, len(s.desk.view.Added), s.cover != nil)
}

func (s *holidayStation) build(g *Game, r image.Rectangle, put func(widget.PreferredSizeLocateableWidget, image.Rectangle)) {
	l, d := g.Look, s.desk
	off := d.field(g, "m", strconv.FormatFloat(s.off, 'f', -1, 64), "How far off the lines about a contact pass it, 5 to 150 m: near, but not so near that it falls into the water column.", 50, d.typedNumber(g, func(v float64) { s.off = v }))
	way := d.field(g, "°", strconv.FormatFloat(s.way, 'f', -1, 64), "The grid bearing of the first pair of lines about a contact, degrees; the second is square to it.", 50, d.typedNumber(g, func(v float64) { s.way = v }))
	typed := l.Row(0, 6, l.Label("Lines about a contact pass it at", l.Small, l.Soft, 0), off, l.Label("m, the first pair on", l.Small, l.Soft, 0), way, l.Label("° grid", l.Small, l.Soft, 0))
	r = underneath(g, r, put, l.Column(0, 4, flow(g, s.acts(), r.Dx()), centredRow(typed)))
	left := image.Rect(r.Min.X, r.Min.Y, r.Min.X+min(l.Px(320), r.Dx()*2/5), r.Max.Y)
	s.list.at = image.Rect(left.Min.X, left.Min.Y, left.Max.X, left.Min.Y+left.Dy()*11/20)
	s.text.at = image.Rect(left.Min.X, s.list.at.Max.Y+l.Px(4), left.Max.X, left.Max.Y)
	s.view.Pane = image.Rect(left.Max.X+l.Px(4), r.Min.Y, r.Max.X, r.Max.Y)
	if !s.view.moved {
		d.fit(&s.view.Projection)
	}
}

func (s *holidayStation) input(g *Game, at image.Point, taken bool) {
	moved, clicked := s.list.input(g, at, taken)
	if h := s.chosen(); h != nil && (moved || clicked) {
		if x, y := s.view.At(h.X, h.Y); !image.Pt(int(x), int(y)).In(s.view.Pane) {
			s.view.X, s.view.Y, s.view.moved = h.X, h.Y, true
		}
		g.Rebuild()
	}
	s.text.input(g, at)
	s.view.input(at, at.In(s.view.Pane) && !taken)
}

func (s *holidayStation) draw(g *Game, dst *ebiten.Image) {
	l, d := g.Look, s.desk
	s.list.draw(dst, l)
	if s.cover == nil {
		look.Write(dst, look.Fitted("Being looked for.", l.Body, s.list.at.Dx()-l.Px(24)), l.Body, float64(s.list.at.Min.X+l.Px(12)), float64(s.list.at.Min.Y+l.Px(8)), l.Soft, look.Left)
	}
	plot := d.plot()
	chosen := d.chosen
	for i := range d.papers.Desk.Contacts {
		c := &d.papers.Desk.Contacts[i]
		plot.Spots = append(plot.Spots, panes.Spot{X: c.X, Y: c.Y, Label: contactName(*c), Chosen: c.Number == chosen})
	}
	panes.Chart(dst, &s.view.Projection, d.watch.chart.mosaic, g.chartShade(d.watch.fall.brightness, d.watch.chart.mosaic), l, &plot)
	s.drawHolidays(dst, l)
	s.text.draw(dst, l, s.letter)
}

// letter letters the holiday that is chosen.
func (s *holidayStation) letter(t *sheet) {
	d := s.desk
	if s.cover == nil {
		return
	}
	t.fact("Seen", fmt.Sprintf("%s %% of %.0f m² once, by where the desk believes every ping lay. That is no finding about the ground.", survey.Percent(s.seen(), 1), s.cover.Map.Square()))
	h := s.chosen()
	if h == nil {
		t.paragraph("There is no holiday that could hide a thing of a metre.", t.l.Ink)
		return
	}
	t.fact(fmt.Sprintf("Holiday %d", s.list.chosen+1), sentence(h.Reason))
	t.fact("Where", d.place(h.X, h.Y))
	long := 0.0
	for _, f := range h.Fill {
		long += f.Length()
	}
	if len(h.Fill) > 0 {
		t.fact("Lines that would fill it", fmt.Sprintf("%s, %.0f m in all; drawn on the chart", some(len(h.Fill), "line", "lines"), long))
	}
	if d.over() {
		t.paragraph(tooLate, t.l.Soft)
	}
}

func (s *holidayStation) inspect(panes map[string]Rect, state map[string]any) {
	panes["chart"] = rect(s.view.Pane)
	if s.cover != nil {
		state["holidays"] = len(s.cover.Holidays)
	}
}

func (s *holidayStation) close() {
	if s.task != nil {
		s.task.Cancel()
	}
}
