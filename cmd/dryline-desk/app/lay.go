package app

import (
	"image"
	"math"
	"slices"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/plan"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Laying is the page of the lines, before a watch: sentences on the left, and the charted depths with what the
// lines see of them on the right. Lines are laid beside the window whenever something is changed.
type Laying struct {
	quiet
	form
	sheet *lineSheet
	home  *Prepare
	sound func(*Game) // has the depths charted, once

	task    *crew.Task[*crew.Laid]
	laid    *crew.Laid // nil while nothing is, or nothing can be
	refused string     // why nothing can be
	bearing float64    // of the way chosen, if it is known
	known   bool
	charted bool
	dirty   bool // something was changed since
	stale   bool // the sentences say what is no longer so

	chart  image.Rectangle
	key    image.Rectangle // what the patterns mean
	view   view
	depths *panes.Depths
	scheme *panes.Scheme
	hand   corner
}

func newLaying(p *Prepare, sound func(*Game)) *Laying {
	s := &Laying{sheet: newLineSheet(p.sheet.brief, p.sheet), home: p, sound: sound, dirty: true}
	s.figures = s.sheet.standing
	s.fault = s.sheet.fault
	s.changed = func() { s.dirty = true }
	return s
}

// underLines is how many lines are kept free for what is said of a figure.
const underLines = 2

// Build implements [Screen].
func (s *Laying) Build(g *Game, size image.Rectangle) *widget.Container {
	s.charts(g)
	l := g.Look
	pad := l.Px(20)
	top := int(look.Tall(l.Title)) + l.Px(30)
	foot := image.Rect(pad, size.Max.Y-l.Px(48), size.Max.X-pad, size.Max.Y-l.Px(8))
	s.text = image.Rect(pad, top, size.Max.X*44/100, foot.Min.Y-l.Px(8))
	s.chart = image.Rect(s.text.Max.X+l.Px(12), top, size.Max.X-pad, s.text.Max.Y)
	s.key = s.chart
	s.chart.Max.Y -= s.keyTall(l)
	s.key.Min.Y = s.chart.Max.Y
	s.view.Pane = s.chart
	if !s.view.moved {
		s.fit()
	}
	all := s.build(g, s.sentences(), underLines)
	buttons := []widget.PreferredSizeLocateableWidget{
		l.Button("Begin the watch", look.Chosen, func() { s.home.begin(g) }),
		explained(g, l.Button("Sail these lines", chosenIf(s.sheet.sail), func() { s.nextSail(g) }), "Have the watch sail these lines in place of those given, or not (W)."),
		explained(g, l.Button("The sheet", look.Plain, func() { s.toSheet(g) }), "Back to the mobilisation sheet; lines and figures are kept (Esc)."),
	}
	if s.sheet.drawn {
		buttons = append(buttons, able(explained(g, l.Button("Corner back", look.Plain, func() { s.takeBack(g) }), "Take the last corner back (Backspace)."), len(s.sheet.corners) > 0))
	}
	return onForm(g, all, append(buttons, s.turning(g)...), foot)
}

// charts has the depths charted before anything is shown.
func (s *Laying) charts(g *Game) {
	if s.charted {
		return
	}
	s.charted = true
	s.sound(g)
	d := &s.sheet.brief.Depths
	s.depths = panes.NewDepths(d.X0, d.Y0, d.Step, d.NX, d.NY, d.Depth, exercise.SoundingError(slices.Max(d.Depth)))
}

// fit shows the chart, lines and turns.
func (s *Laying) fit() {
	b := s.sheet.brief
	x0, y0, x1, y1 := 0.0, 0.0, b.East, b.North
	if s.scheme != nil {
		for _, way := range append(slices.Clip(s.scheme.Turns), s.scheme.Runs) {
			for i := 0; i+1 < len(way); i += 2 {
				x0, x1 = min(x0, way[i]), max(x1, way[i])
				y0, y1 = min(y0, way[i+1]), max(y1, way[i+1])
			}
		}
	}
	s.view.Fit(x0-20, y0-20, x1+20, y1+20)
}

// plan is the plan as it is laid, nil if there is none.
func (s *Laying) plan() *plan.Plan {
	if s.laid == nil {
		return nil
	}
	return s.laid.Plan
}

func (s *Laying) toSheet(g *Game) {
	g.Unfocus()
	g.Go(s.home)
}

// lay begins to lay the lines anew if anything was changed, and takes what came of it.
func (s *Laying) lay(g *Game) {
	if s.dirty {
		s.dirty = false
		s.cancel()
		was := s.refused
		s.refused, s.known = "", false
		if faults := s.sheet.faults(); len(faults) > 0 {
			s.refused = faults[0]
			s.take(nil)
		} else {
			s.bearing, s.known = s.sheet.direction()
			s.task = crew.Lay(s.sheet.whole())
		}
		s.stale = s.stale || was != s.refused
	}
	if s.stale && s.typing() == nil {
		s.stale = false
		g.Rebuild()
	} else if s.stale && g.screen == s && s.reset(g, s.sentences()) {
		s.stale = false
	}
	if s.task == nil {
		return
	}
	laid, err, done := s.task.Came()
	if !done {
		return
	}
	s.task = nil
	if err != nil {
		s.refused = sentence(err.Error()) + "."
		laid = nil
	}
	s.take(laid)
}

func (s *Laying) cancel() {
	if s.task != nil {
		s.task.Cancel()
		s.task = nil
	}
}

// take shows what was laid, or that nothing is.
func (s *Laying) take(laid *crew.Laid) {
	s.laid = laid
	s.scheme.Release()
	s.scheme = schemeOf(s.plan())
	s.stale = true
}

// orders are those that have the watch sail these lines, none if it is not to; why says what is against it.
func (s *Laying) orders() (all []order.Command, why string) {
	switch {
	case !s.sheet.sail:
		return nil, ""
	case s.task != nil:
		return nil, "The lines are still being laid."
	case s.laid == nil && !s.dirty:
		return nil, "No line is laid. " + s.refused
	}
	if v, _ := s.sheet.scale().value(); s.dirty || s.laid == nil || v != s.laid.Plan.Spec.Range {
		return nil, "Something was changed since the lines were laid: look at them again."
	}
	all, err := s.sheet.orders(s.laid.Plan)
	if err != nil {
		return nil, sentence(err.Error()) + "."
	}
	return all, ""
}

func (s *Laying) chose(g *Game) {
	s.dirty = true
	g.Rebuild()
}

func (s *Laying) nextWay(g *Game) { s.sheet.way = (s.sheet.way + 1) % way(len(ways)); s.chose(g) }
func (s *Laying) nextSpacing(g *Game) {
	s.sheet.spaced = !s.sheet.spaced
	s.chose(g)
}
func (s *Laying) nextNadir(g *Game) {
	all := plan.Nadirs()
	s.sheet.nadir = all[(slices.Index(all, s.sheet.nadir)+1)%len(all)]
	s.chose(g)
}
func (s *Laying) nextOrder(g *Game) {
	s.sheet.apart = (s.sheet.apart + 1) % len(succession)
	s.chose(g)
}
func (s *Laying) nextEdges(g *Game) { s.sheet.edges = !s.sheet.edges; s.chose(g) }
func (s *Laying) nextSail(g *Game)  { s.sheet.sail = !s.sheet.sail; g.Rebuild() }

// Update implements [Screen].
func (s *Laying) Update(g *Game) error {
	s.lay(g)
	now := s.typing()
	if now != nil {
		s.about = now
	}
	x, y, taken := g.Pointer()
	s.point(g, image.Pt(x, y), taken)
	switch {
	case justPressed(ebiten.KeyTab) && shiftHeld():
		s.next(g, -1)
	case justPressed(ebiten.KeyTab):
		s.next(g, 1)
	case now != nil && again(ebiten.KeyUp):
		s.step(now, 1)
	case now != nil && again(ebiten.KeyDown):
		s.step(now, -1)
	case g.Typing():
	case justPressed(ebiten.KeyEnter):
		s.home.begin(g)
	case justPressed(ebiten.KeyEscape):
		s.toSheet(g)
	case justPressed(ebiten.KeyPageUp):
		s.turn(g, -1)
	case justPressed(ebiten.KeyPageDown):
		s.turn(g, 1)
	default:
		for _, a := range s.choices() {
			if justPressed(a.key) {
				a.do(g)
			}
		}
		s.cross(g)
	}
	return nil
}

func (s *Laying) step(e *entered, by float64) {
	s.sheet.nudge(e, by)
	s.write(e)
	s.dirty = true
}

// laidBy is a choice of the page and its key.
type laidBy struct {
	key  ebiten.Key
	name string
	help string
	do   func(*Game)
}

func (s *Laying) choices() []laidBy {
	return []laidBy{
		{ebiten.KeyA, "A", "the area: of the exercise, or drawn", s.nextArea},
		{ebiten.KeyD, "D", "another direction", s.nextWay},
		{ebiten.KeyS, "S", "by an overlap or a distance", s.nextSpacing},
		{ebiten.KeyN, "N", "the ground under the fish", s.nextNadir},
		{ebiten.KeyO, "O", "the order of the lines", s.nextOrder},
		{ebiten.KeyE, "E", "lines outside of the limits", s.nextEdges},
		{ebiten.KeyW, "W", "sail these lines or those given", s.nextSail},
		{ebiten.KeyK, "K", "the whole chart", func(*Game) { s.view.moved = false; s.fit() }},
	}
}

// Keys implements [Screen].
func (s *Laying) Keys() []Key {
	out := []Key{{"Tab", "next figure; with Shift the one before"}, {"Up, Down", "step the figure that has the keys"}}
	for _, a := range s.choices() {
		out = append(out, Key{a.name, a.help})
	}
	return append(out, Key{"Arrows", "move the cross, of a drawn area; with Shift by a metre"}, Key{"Space", "a corner at the cross"}, Key{"Backspace", "take the last corner back"},
		Key{"PgUp, PgDn", "up and down the page"}, Key{"+, -", "zoom the chart; the wheel too, and a drag moves it"}, Key{"Enter", "begin the watch, when no figure has the keys"}, Key{"Esc", "back to the sheet"})
}

// Close implements [Screen].
func (s *Laying) Close(*Game) {
	if s.task != nil {
		s.cancel()
		s.dirty = true
	}
}

// Inspect implements [Screen].
func (s *Laying) Inspect() (string, map[string]Rect, any) {
	now := map[string]string{}
	for _, e := range s.sheet.standing() {
		now[e.name] = e.text
	}
	state := map[string]any{"figures": now, "way": ways[s.sheet.way].says, "drawn": s.sheet.drawn, "corners": len(s.sheet.corners), "sail": s.sheet.sail,
		"laying": s.dirty || s.task != nil, "refused": s.refused}
	var at [][2]int // of the corners, pixels
	for _, c := range s.sheet.corners {
		x, y := s.view.At(c.X, c.Y)
		at = append(at, [2]int{int(x), int(y)})
	}
	state["corners_px"] = at
	if p := s.plan(); p != nil {
		var names []string
		for _, l := range p.Lines {
			names = append(names, l.Name)
		}
		state["lines"], state["minutes"], state["once"] = names, math.Ceil(p.Time/60), p.Covered.Once
	}
	return "lines", map[string]Rect{"text": rect(s.text), "chart": rect(s.chart)}, state
}
