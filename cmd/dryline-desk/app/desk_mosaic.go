package app

import (
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// mosaicStation makes the mosaic again: what it is made by is set beside it, and how it stands and how it
// would be lie next to each other, moved and zoomed as one.
type mosaicStation struct {
	still
	desk  *Desk
	slate slate
	view  view // of both: its pane is that of either, which are of one size
	sides [2]image.Rectangle

	task    *crew.Task[*crew.Picture]
	making  int  // which of the two the task paints: before, after
	want    bool // the other is to be painted after it
	shown   [2]*painting
	as      string         // review that the picture after is of
	worked  *survey.Worked // as it was worked up for that picture
	adopted bool           // it was just let stand, and the papers still have it as:
	stood   *survey.Worked
}

const (
	before = iota
	after
)

// painting is a mosaic and what it is of.
type painting struct {
	mosaic *panes.Mosaic
	of     *survey.Worked
	lines  int
}

func newMosaicStation(d *Desk) *mosaicStation {
	s := &mosaicStation{desk: d}
	s.slate.desk = d
	return s
}

func (s *mosaicStation) name() string { return "The mosaic, again" }
func (s *mosaicStation) about() string {
	return "By which settings the survey is worked up, and its mosaic before and after."
}

func (s *mosaicStation) says() [2]string {
	p := s.desk.papers.Desk
	stands := "as in the watch"
	if p.Worked != nil {
		stands = "worked up again"
	}
	switch {
	case s.task != nil:
		return [2]string{stands, "being made, " + survey.Percent(100*s.task.Share(), 0) + " %"}
	case p.Worked == nil && touched(&p.Review) || p.Worked != nil && !sameReview(&p.Worked.Review, &p.Review):
		return [2]string{stands, "changed since: make it again"}
	}
	return [2]string{stands, "nothing changed since"}
}

func (s *mosaicStation) fresh() { s.slate.set(s.settings()) }

// ready reports a picture after that is of the review as it is now.
func (s *mosaicStation) ready() bool {
	return s.shown[after] != nil && s.worked != nil && s.as == asks(&s.desk.papers.Desk.Review)
}

func (s *mosaicStation) acts() []act {
	no := len(s.desk.papers.Desk.Lines) == 0
	out := []act{}
	if s.task != nil {
		out = append(out, act{key: ebiten.KeyEscape, name: "Esc", label: "Call it off Esc", emphasis: look.Urgent, help: "call the work off", says: "Leave off making the mosaic (Esc). Nothing is changed.", do: func(g *Game) { s.callOff(); g.Rebuild() }})
	} else {
		out = append(out, act{key: ebiten.KeyR, name: "R", label: "Make it again R", emphasis: chosenIf(!s.ready()), cannot: no, help: "make the mosaic again, beside the one there is",
			says: "Work the survey up by these settings and paint its mosaic beside the one there is (R). Nothing is changed by that.", do: func(g *Game) { s.make(g) }})
	}
	return append(out,
		act{key: ebiten.KeyL, name: "L", label: "Let it stand so L", emphasis: chosenIf(s.ready()), cannot: !s.ready() || s.task != nil, help: "have the survey stand as the mosaic after shows it",
			says: "From now on the survey stands as the mosaic on the right shows it: lines, contacts and coverage move with it (L).", do: func(g *Game) { s.let(g) }},
		act{key: ebiten.KeyW, name: "W", label: "Whole W", help: "the whole of it; wheel and drag move both", says: "Show the whole of both mosaics (W). The wheel zooms, a drag moves both.", do: func(*Game) { s.view.moved = false; s.fitted() }},
	)
}

// make has the mosaic made as it would be and, if it is not there yet, as it stands.
func (s *mosaicStation) make(g *Game) {
	if why := s.desk.bench.Refused(); why != nil {
		g.say(why.Error())
		return
	}
	s.want = true
	s.stands()
	if s.task == nil {
		s.remake()
	}
	g.Rebuild()
}

// stands has the mosaic painted as the survey stands, unless it was.
func (s *mosaicStation) stands() {
	p := s.desk.papers
	if had := s.shown[before]; had != nil && had.of == p.Desk.Worked && had.lines == len(p.Desk.Lines) {
		return
	}
	s.making, s.task = before, s.desk.bench.Stands(p)
}

func (s *mosaicStation) remake() {
	p := s.desk.papers
	s.want, s.making, s.as, s.worked = false, after, asks(&p.Desk.Review), nil
	s.task = s.desk.bench.Remake(p)
}

func (s *mosaicStation) callOff() {
	if s.task != nil {
		s.task.Cancel()
		s.task, s.want = nil, false
	}
}

// let has the survey stand as the picture after shows it.
func (s *mosaicStation) let(g *Game) {
	s.desk.clerks.Adopt(s.worked)
	s.desk.order(order.Command{Do: order.Rework})
	if s.desk.pending(order.Rework) == nil && s.desk.clerks.View().Complaints != s.desk.complaint {
		return // it was refused, and the foot says why
	}
	s.shown[before], s.shown[after] = s.shown[after], s.shown[before]
	s.adopted, s.stood = true, s.desk.papers.Desk.Worked
	g.say("The survey stands so: contacts and coverage moved with it. What is on the right is how it stood before.")
	g.Rebuild()
}

// work takes pictures in as they come.
func (s *mosaicStation) work(g *Game) {
	if s.adopted && s.desk.papers.Desk.Worked != s.stood { // the picture is of what stands now
		s.adopted, s.worked = false, nil
		s.shown[before].of, s.shown[before].lines = s.desk.papers.Desk.Worked, len(s.desk.papers.Desk.Lines)
	}
	if s.task == nil {
		return
	}
	picture, err, done := s.task.Came()
	if !done {
		return
	}
	s.task = nil
	if err != nil {
		s.want = false
		g.say("The mosaic was not made: " + err.Error())
		g.Rebuild()
		return
	}
	m := panes.NewMosaic(picture.Cell, picture.X, picture.Y)
	for _, t := range picture.Tiles {
		m.Put(t)
	}
	if had := s.shown[s.making]; had != nil {
		had.mosaic.Deallocate()
	}
	p := s.desk.papers.Desk
	s.shown[s.making] = &painting{m, p.Worked, len(p.Lines)}
	if s.making == after {
		s.worked = picture.Worked
	}
	if s.want {
		s.remake()
	}
	g.Rebuild()
}

func (s *mosaicStation) show(g *Game) {
	if s.task == nil && s.desk.bench.Refused() == nil && len(s.desk.papers.Desk.Lines) > 0 {
		s.stands()
	}
}

func (s *mosaicStation) state() string {
	return fmt.Sprint(s.slate.chosen, s.task != nil, s.making, s.ready(), s.shown[before] != nil, s.shown[after] != nil)
}

func (s *mosaicStation) build(g *Game, r image.Rectangle, put func(widget.PreferredSizeLocateableWidget, image.Rectangle)) {
	l := g.Look
	gap := l.Px(4)
	left := image.Rect(r.Min.X, r.Min.Y, r.Min.X+min(l.Px(290), r.Dx()*2/5), r.Max.Y)
	right := image.Rect(left.Max.X+gap, r.Min.Y, r.Max.X, r.Max.Y)
	right = underneath(g, right, put, flow(g, s.acts(), right.Dx()))
	s.slate.build(g, left, put)
	head := int(look.Tall(l.Small)) + l.Px(6)
	middle := (right.Min.X + right.Max.X) / 2
	s.sides = [2]image.Rectangle{image.Rect(right.Min.X, right.Min.Y+head, middle-gap/2, right.Max.Y), image.Rect(middle+gap/2, right.Min.Y+head, right.Max.X, right.Max.Y)}
	s.view.Pane = s.sides[before]
	if !s.view.moved {
		s.fitted()
	}
}

// fitted shows the whole plan.
func (s *mosaicStation) fitted() { s.desk.fit(&s.view.Projection) }

func (s *mosaicStation) input(g *Game, at image.Point, taken bool) {
	s.slate.input(g, at, taken)
	side := -1
	for i, r := range s.sides {
		if at.In(r) && !taken {
			side = i
		}
	}
	if side >= 0 {
		s.view.Pane = s.sides[side] // about the pointer, on whichever side it is
	}
	s.view.input(at, side >= 0)
	for i, k := range []ebiten.Key{ebiten.KeyLeft, ebiten.KeyRight} {
		if again(k) {
			s.view.X += float64(2*i-1) * 40 / s.view.PerM
			s.view.moved = true
		}
	}
}

func (s *mosaicStation) draw(g *Game, dst *ebiten.Image) {
	l, d := g.Look, s.desk
	s.slate.draw(dst, l)
	heads := [2]string{"As it stands", "As it would be"}
	if s.worked == nil && s.shown[after] != nil && s.task == nil {
		heads[after] = "As it stood before"
	} else if s.shown[after] != nil && !s.ready() {
		heads[after] = "As it would have been: settings changed since"
	}
	for i, r := range s.sides {
		look.Write(dst, look.Fitted(heads[i], l.Strong, r.Dx()), l.Strong, float64(r.Min.X+l.Px(4)), float64(r.Min.Y)-look.Tall(l.Strong)-float64(l.Px(1)), l.Ink, look.Left)
		p := s.view.Projection
		p.Pane = r
		if s.task != nil && s.making == i {
			look.Fill(dst, r, l.Sunk)
			bar(dst, l, r, s.task.Share(), "The mosaic is made from the record.")
			continue
		}
		if s.shown[i] == nil {
			look.Fill(dst, r, l.Sunk)
			says := "Make it again (R) to see it here."
			if i == before {
				says = "How the survey stands, from the record."
			}
			if why := d.bench.Refused(); why != nil {
				says = sentence(why.Error())
			}
			y := float64(r.Min.Y + r.Dy()/2)
			for _, line := range wrapped(says, l.Body, float64(r.Dx()-l.Px(20))) {
				look.Write(dst, line, l.Body, float64(r.Min.X+r.Max.X)/2, y, l.Soft, look.Middle)
				y += look.Tall(l.Body)
			}
			continue
		}
		by := s.shown[i].mosaic
		if other := s.shown[before]; other != nil {
			by = other.mosaic // what differs between them is not to be stretched away
		}
		plot := d.plot()
		panes.Chart(dst, &p, s.shown[i].mosaic, g.chartShade(d.watch.fall.brightness, by), l, &plot)
	}
}

func (s *mosaicStation) inspect(panes map[string]Rect, state map[string]any) {
	panes["before"], panes["after"] = rect(s.sides[before]), rect(s.sides[after])
	state["making"], state["ready"], state["painted"] = s.task != nil, s.ready(), s.shown[before] != nil
	state["per_m"] = s.view.PerM
	state["setting"] = s.slate.items[s.slate.chosen].name
}

func (s *mosaicStation) close() {
	s.callOff()
	for i, p := range s.shown {
		if p != nil {
			p.mosaic.Deallocate()
			s.shown[i] = nil
		}
	}
}
