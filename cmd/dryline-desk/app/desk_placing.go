package app

import (
	"fmt"
	"image"
	"math"
	"strconv"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/order"
	"dryline/sim/survey"
	"dryline/sim/survey/calibrate"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// placingStation is where it is found out how well the fish was placed: the layback, and the system as a
// whole, each in steps of which every one says what it needs and what was found.
type placingStation struct {
	still
	desk   *Desk
	steps  roster
	text   roll
	shown  image.Rectangle // of where the passes put it
	number int             // contact it is done on; 0 for all, at the layback
	along  float64
	across float64

	why     string // the last order of a step was refused; empty if it was carried out
	asked   bool   // one is on its way,
	refused int    // given when so many had been refused
}

func newPlacingStation(d *Desk) *placingStation {
	return &placingStation{desk: d, along: 0.5, across: 0.5}
}

func (s *placingStation) name() string { return "Where the fish was" }
func (s *placingStation) about() string {
	return "How far the layback is wrong, and how well the system places things: in steps, and then used."
}

func (s *placingStation) says() [2]string {
	c := &s.desk.papers.Desk.Calibrated
	layback, system := "layback not worked out", "system not checked"
	if c.Layback != nil {
		layback = fmt.Sprintf("layback %+.1f ± %.1f m", c.Layback.Total.Value, c.Layback.Total.HalfWidth())
	}
	if c.System != nil {
		system = "system checked, not met"
		if c.System.Met {
			system = "system checked, met"
		}
	}
	return [2]string{layback, system}
}

// do gives the order of a step, and waits for what comes of it: why it is refused is said on the page.
func (s *placingStation) do(o order.Command) {
	s.asked, s.refused, s.why = true, s.desk.clerks.View().Complaints, ""
	s.desk.order(o)
}

func (s *placingStation) work(*Game) {
	if v := s.desk.view; s.asked && v.Complaints != s.refused {
		s.asked, s.why = false, v.Complaint
	}
}

// step is one of a procedure.
type step struct {
	name  string
	done  func(s *placingStation) bool
	needs string
	found func(s *placingStation, t *sheet)
	acts  func(s *placingStation) []act
}

var placingSteps = []step{
	{"Layback 1: a thing passed both ways", func(s *placingStation) bool { return len(s.opposed()) > 0 },
		"Something small and sharp that was seen on two passes in opposite directions. A layback that is wrong puts it astern of where it lies on both, and so in two places. Passes at two cable lengths, 15 m apart or more, and at two speeds, half a metre a second apart, let factor, offset and latency come apart as well.",
		(*placingStation).foundPasses, nil},
	{"Layback 2: how well it was marked", func(s *placingStation) bool { return s.along > 0 && s.across > 0 },
		"How far off a mark may be, one standard deviation, along the track and across it. Along the track it is the beam's width there or the way between pings, whichever is more; across it a sample or two. The interval that comes out is no better than what is stated here.",
		(*placingStation).foundAccuracy, nil},
	{"Layback 3: work it out", func(s *placingStation) bool { return s.desk.papers.Desk.Calibrated.Layback != nil },
		"Steps 1 and 2. The marks of all passes are brought together by least squares: where each thing lies, and what the layback is wrong by.",
		(*placingStation).foundLayback, (*placingStation).workOut},
	{"Layback 4: use it", func(s *placingStation) bool { return s.desk.papers.Desk.Calibrated.Applied != "" },
		"Step 3, with an interval that you are content with. It is put among the settings of the mosaic; nothing moves yet.",
		(*placingStation).foundUse, (*placingStation).use},
	{"Layback 5: make it again and look", func(s *placingStation) bool {
		w := s.desk.papers.Desk.Worked
		return w != nil && s.desk.papers.Desk.Calibrated.Applied != "" && sameReview(&w.Review, &s.desk.papers.Desk.Review)
	},
		"Step 4. The mosaic is made again, beside the one there is: the thing should now lie in one place. If it does, let it stand so.",
		(*placingStation).foundAgain, (*placingStation).lookAgain},
	{"System 1: a thing passed on purpose", func(s *placingStation) bool { return s.desk.contact(s.number) != nil },
		"A thing of about a metre that was passed on purpose: ten passes or more, on both sides, near and far, in at least three directions that are not all reciprocal. Every pass must be shown on the record, or it counts as one that missed it.",
		(*placingStation).foundTries, nil},
	{"System 2: check it", func(s *placingStation) bool { return s.desk.papers.Desk.Calibrated.System != nil },
		"Step 1. Of the places that the passes put it in: the radius that holds 95 of 100, and what is behind it. A towed system is allowed 10 m.",
		(*placingStation).foundSystem, (*placingStation).check},
}

func (s *placingStation) fresh() {
	s.steps.rows = s.steps.rows[:0]
	for _, st := range placingSteps {
		stands := "to do"
		if st.done(s) {
			stands = "done"
		}
		s.steps.rows = append(s.steps.rows, entryLine{st.name, stands})
	}
	if s.number != 0 && s.desk.contact(s.number) == nil {
		s.number = 0
	}
	if s.asked { // it was carried out
		s.asked = false
	}
}

func (s *placingStation) show(*Game) { s.fresh() }

// opposed are the contacts that were seen on passes in opposite directions.
func (s *placingStation) opposed() (out []*survey.Contact) {
	p := s.desk.papers.Desk
	for i := range p.Contacts {
		if c := &p.Contacts[i]; anyOpposed(s.courses(c)) {
			out = append(out, c)
		}
	}
	return out
}

// anyOpposed reports two courses within 30 degrees of opposite, as the calibration has it.
func anyOpposed(courses []float64) bool {
	for i, a := range courses {
		for _, b := range courses[:i] {
			if math.Abs(math.Remainder(a-b, 2*math.Pi)) > calibrate.Opposite {
				return true
			}
		}
	}
	return false
}

// courses are those of the passes of a contact, radians.
func (s *placingStation) courses(c *survey.Contact) (out []float64) {
	standing := s.desk.papers.Desk.LatestLines()
	for _, q := range c.Passes {
		if q.Run < 1 || q.Run > len(standing) {
			continue
		}
		l := standing[q.Run-1]
		if i := indexOf(l, q.Ping); i >= 0 {
			out = append(out, l.Pings[i].Fix.Course)
		}
	}
	return out
}

func (s *placingStation) acts() []act {
	d := s.desk
	name := "all contacts"
	if c := d.contact(s.number); c != nil {
		name = contactName(*c)
	}
	out := []act{
		{key: ebiten.KeyO, name: "O", label: "On " + name + " O", help: "the contact that it is done on", says: "Choose the contact that it is done on (O).", do: func(*Game) { d.chooser = s.whom() }},
		{key: ebiten.KeyR, name: "R", label: "To the record R", help: "to the record, to show it on more passes", says: "To the record, to show the contact on more passes (R, then S there).", do: func(g *Game) {
			if s.number != 0 {
				d.chosen = s.number
			}
			d.turn(g, 1)
		}},
	}
	if st := placingSteps[s.steps.chosen]; st.acts != nil {
		out = append(out, st.acts(s)...)
	}
	return out
}

// whom has the contact chosen that it is done on.
func (s *placingStation) whom() *chooser {
	d := s.desk
	c := newChooser("On which contact")
	c.offer("all contacts", "for the layback", s.number == 0, func() { s.number = 0; s.fresh() })
	for i := range d.papers.Desk.Contacts {
		k := &d.papers.Desk.Contacts[i]
		c.offer(contactName(*k), some(len(k.Passes), "pass", "passes"), k.Number == s.number, func() { s.number = k.Number; s.fresh() })
	}
	return c
}

func (s *placingStation) workOut() []act {
	d := s.desk
	return []act{{key: ebiten.KeyEnter, name: "Enter", label: "Work it out: Enter", emphasis: chosenIf(d.papers.Desk.Calibrated.Layback == nil), help: "do the step", says: "Work out what the layback is wrong by (Enter).", do: func(*Game) {
		s.do(order.Command{Do: order.CalibrateLayback, Number: s.number, Value: s.along, Value2: s.across})
	}}}
}

func (s *placingStation) use() []act {
	d := s.desk
	c := &d.papers.Desk.Calibrated
	return []act{{key: ebiten.KeyEnter, name: "Enter", label: "Use it: Enter", emphasis: look.Chosen, cannot: c.Layback == nil || c.Applied != "", help: "do the step", says: "Put it among the settings that the survey is worked up with (Enter).", do: func(*Game) {
		s.do(order.Command{Do: order.ApplyCalibration})
	}}}
}

func (s *placingStation) lookAgain() []act {
	d := s.desk
	return []act{{key: ebiten.KeyEnter, name: "Enter", label: "Make it again: Enter", emphasis: look.Chosen, help: "do the step", says: "Make the mosaic again, beside the one there is (Enter).", do: func(g *Game) {
		d.turn(g, 2)
		if m, ok := d.station().(*mosaicStation); ok && m.task == nil {
			m.make(g)
		} else if ok {
			m.want = true
		}
	}}}
}

func (s *placingStation) check() []act {
	d := s.desk
	return []act{{key: ebiten.KeyEnter, name: "Enter", label: "Check it: Enter", emphasis: chosenIf(d.papers.Desk.Calibrated.System == nil), cannot: s.number == 0, help: "do the step", says: "Work out how well the system finds and places the contact (Enter).", do: func(*Game) {
		s.do(order.Command{Do: order.CheckSystem, Number: s.number})
	}}}
}

func (s *placingStation) state() string {
	return fmt.Sprint(s.steps.chosen, s.number, s.along, s.across)
}

func (s *placingStation) build(g *Game, r image.Rectangle, put func(widget.PreferredSizeLocateableWidget, image.Rectangle)) {
	l, d := g.Look, s.desk
	rows := []widget.PreferredSizeLocateableWidget{flow(g, s.acts(), r.Dx()-l.Px(4))}
	if s.steps.chosen == 1 {
		field := func(v *float64, says string) *widget.TextInput {
			return d.field(g, "m", strconv.FormatFloat(*v, 'f', -1, 64), says, 60, d.typedNumber(g, func(n float64) {
				if n < 0.01 || n > 100 {
					g.say("A mark good to that much is out of range (want 0.01 to 100 m)")
					return
				}
				*v = n
			}))
		}
		rows = append(rows, centredRow(l.Row(0, 6, l.Label("Marks are good to", l.Body, l.Ink, 0), field(&s.along, "How far off a mark may be along the track, metres, one standard deviation."),
			l.Label("m along the track and", l.Body, l.Ink, 0), field(&s.across, "How far off a mark may be across the track, metres, one standard deviation."), l.Label("m across it.", l.Body, l.Ink, 0))))
	}
	s.steps.at = image.Rect(r.Min.X, r.Min.Y, r.Min.X+min(l.Px(270), r.Dx()*2/5), r.Max.Y)
	right := image.Rect(s.steps.at.Max.X+l.Px(4), r.Min.Y, r.Max.X, r.Max.Y)
	rows[0] = flow(g, s.acts(), right.Dx())
	s.text.at = underneath(g, right, put, l.Column(0, 4, rows...))
	s.shown = s.text.at
	s.text.at.Max.Y -= s.text.at.Dy() * 9 / 20
	s.shown.Min.Y = s.text.at.Max.Y + l.Px(4)
}

func (s *placingStation) input(g *Game, at image.Point, taken bool) {
	if moved, _ := s.steps.input(g, at, taken); moved {
		s.why = ""
		s.text.scroll = 0
		g.Rebuild()
	}
	s.text.input(g, at)
}

func (s *placingStation) draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	s.steps.draw(dst, l)
	s.drawPlaces(dst, l, s.shown)
	st := placingSteps[s.steps.chosen]
	s.text.draw(dst, l, func(t *sheet) {
		t.line(st.name, l.Strong, l.Ink)
		t.gap(6)
		t.line("What is needed", l.Small, l.Soft)
		t.paragraph(st.needs, l.Ink)
		t.gap(10)
		t.line("What was found", l.Small, l.Soft)
		if s.why != "" && st.acts != nil {
			for _, why := range strings.Split(s.why, "; ") {
				t.paragraph(sentence(why), l.Caution)
			}
			t.gap(6)
		}
		st.found(s, t)
	})
}

func (s *placingStation) inspect(_ map[string]Rect, state map[string]any) {
	c := &s.desk.papers.Desk.Calibrated
	state["step"], state["layback"], state["applied"], state["system"] = s.steps.chosen+1, c.Layback != nil, c.Applied, c.System != nil
}
