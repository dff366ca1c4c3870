package app

import (
	"image"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/sim/assess"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// HandIn hands an assessment in whose watch is over, and says in which folder. It takes some
// seconds or minutes.
type HandIn func() (where string, err error)

// StartAssessed has a session stood as an assessment, which lies under way somewhere.
func StartAssessed(g *Game, s *assess.Session, underWay string, handIn HandIn) (Screen, error) {
	c, err := crew.Assess(s, g.Apart)
	if err != nil {
		return nil, err
	}
	w := newWatch(g, c.Brief(), c)
	w.chart.mosaic = newMosaic(c)
	w.journal.over, w.journal.where = true, underWay // it keeps its own log
	return manned(w, c, handIn), nil
}

// sideView reports whether the view from the side is shown: at sea there is none, and in an
// assessment only where the exercise allows it.
func (p *post) sideView() bool { return !p.brief.Help.Assessed || p.brief.Help.SideView }

// drawNoSideView says why there is none.
func (w *Watch) drawNoSideView(g *Game, dst *ebiten.Image) {
	l, at := g.Look, w.at.section
	look.Fill(dst, at, l.Panel)
	x, y := float64(at.Min.X+at.Max.X)/2, float64(at.Min.Y+at.Max.Y)/2-look.Tall(l.Body)/2
	look.Write(dst, "Assessment: no view from the side. Waterfall, height and tension tell.", l.Body, x, y, l.Soft, look.Middle)
}

// HandedIn is the screen of an assessment that is over: what came of it is for the
// instructor.
type HandedIn struct {
	quiet
	title string
	owner *crew.Crew
	done  chan handedIn // while it is being handed in
	came  *handedIn
}

type handedIn struct {
	where string
	err   error
}

// newHandedIn hands an assessment in.
func newHandedIn(d *Duty) *HandedIn {
	h := &HandedIn{title: d.brief.Title, owner: d.owner, done: make(chan handedIn, 1)}
	go func() {
		where, err := d.handIn()
		h.done <- handedIn{where, err}
	}()
	return h
}

// Build implements [Screen].
func (h *HandedIn) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	foot := image.Rect(size.Min.X+l.Px(20), size.Max.Y-l.Px(60), size.Max.X-l.Px(20), size.Max.Y-l.Px(16))
	back := l.Button("Back to the exercises", look.Chosen, func() { g.Go(NewChoose()) })
	return pinned(func(int) image.Rectangle { return foot }, centredRow(l.Row(4, 10, able(back, h.came != nil))))
}

// Update implements [Screen].
func (h *HandedIn) Update(g *Game) error {
	select {
	case c := <-h.done:
		h.came = &c
		g.Rebuild()
	default:
	}
	return nil
}

// says are the lines of the page.
func (h *HandedIn) says() []string {
	switch {
	case h.came == nil:
		return []string{"Being handed in. Leave the window open."}
	case h.came.err != nil:
		return []string{"It could not be handed in: " + h.came.err.Error(), "It is kept under way: start it again from there to hand it in."}
	}
	return []string{
		"Handed in. Give this folder to your instructor:", h.came.where,
		"It has what the desk made. Truth and debrief are sealed in it for the instructor.",
	}
}

// Draw implements [Screen].
func (h *HandedIn) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	x, y := float64(l.Px(20)), float64(l.Px(14))
	look.Write(dst, h.title, l.Title, x, y, l.Ink, look.Left)
	y += look.Tall(l.Title) + float64(l.Px(16))
	for _, p := range h.says() {
		for _, line := range wrapped(p, l.Body, float64(g.size.Dx()-l.Px(40))) {
			look.Write(dst, line, l.Body, x, y, l.Ink, look.Left)
			y += look.Tall(l.Body) + float64(l.Px(2))
		}
		y += float64(l.Px(8))
	}
}

// Keys implements [Screen].
func (h *HandedIn) Keys() []Key { return nil }

// Inspect implements [Screen].
func (h *HandedIn) Inspect() (string, map[string]Rect, any) {
	where := ""
	if h.came != nil {
		where = h.came.where
	}
	return "handed in", nil, where
}
