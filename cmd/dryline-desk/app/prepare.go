package app

import (
	"fmt"
	"image"
	"slices"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/exercise"
	"dryline/sim/order"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Prepare is the preparation of a watch: its mobilisation sheet, and beside it the lines. It has the brief
// of the exercise and not the exercise, as a watch has.
type Prepare struct {
	quiet
	form
	sheet *mobilisation
	lines *Laying
	title string
	start func(*Game, []order.Command) (Screen, error)
	back  func(*Game)
	cast  func(*Game) // has the cast of the brief taken, which asks for the seed

	refused bool // it was to begin with a fault
	drawing image.Rectangle
}

// NewPrepare opens the sheet of an exercise.
func NewPrepare(ex *exercise.Exercise, back Screen) *Prepare {
	b := ex.Brief()
	p := &Prepare{
		sheet: newSheet(b), title: b.Title,
		start: func(g *Game, orders []order.Command) (Screen, error) { return startPrepared(g, ex, orders) },
		back:  func(g *Game) { g.Go(back) },
	}
	p.cast = func(g *Game) { b.Cast = ex.TakeCast(exercise.SeedsOf(seedFor(g, ex))) }
	p.figures = func() []*entered { return p.sheet.figures }
	p.fault = p.sheet.fault
	p.lines = newLaying(p, func(g *Game) { b.Depths = ex.Sound(exercise.SeedsOf(seedFor(g, ex))) })
	return p
}

// underSheet is how many lines are kept free for what is said of a figure.
const underSheet = 2

// Build implements [Screen].
func (p *Prepare) Build(g *Game, size image.Rectangle) *widget.Container {
	if len(p.sheet.brief.Cast.Speed) == 0 {
		p.cast(g)
	}
	l := g.Look
	pad := l.Px(20)
	top := int(look.Tall(l.Title)) + l.Px(30)
	foot := image.Rect(pad, size.Max.Y-l.Px(48), size.Max.X-pad, size.Max.Y-l.Px(8))
	p.text = image.Rect(pad, top, size.Max.X*52/100, foot.Min.Y-l.Px(8))
	p.drawing = image.Rect(p.text.Max.X+l.Px(12), top, size.Max.X-pad, p.text.Max.Y)
	all := p.build(g, p.sheet.sentences(p.nextMethod, p.nextChannel), underSheet)
	buttons := []widget.PreferredSizeLocateableWidget{
		l.Button("Begin the watch", look.Chosen, func() { p.begin(g) }),
		explained(g, l.Button("Lines", look.Plain, func() { p.toLines(g) }), "Draw lines of your own on the charted depths and see what they come to (L)."),
		explained(g, l.Button("As the exercise has it", look.Plain, func() { p.sheet.restore(); p.refused = false; g.Rebuild() }), "Every figure as it was when you opened the sheet."),
		l.Button("Back", look.Plain, func() { p.back(g) }),
	}
	return onForm(g, all, append(buttons, p.turning(g)...), foot)
}

// onForm has the controls of a form where they lie, and a row of buttons at its foot.
func onForm(g *Game, all []placedControl, buttons []widget.PreferredSizeLocateableWidget, foot image.Rectangle) *widget.Container {
	l := g.Look
	row := l.Row(4, 10, buttons...)
	caution := l.Label("Training aid. Not for navigation.", l.Small, l.Soft, 0)
	if wide, _ := row.PreferredSize(); wide+l.Px(30)+int(look.Wide(caution.Label, l.Small)) < foot.Dx() {
		row.AddChild(caution)
	}
	all = append(all, placedControl{centredRow(row), &foot})
	var controls []widget.PreferredSizeLocateableWidget
	for _, c := range all {
		controls = append(controls, c.PreferredSizeLocateableWidget)
	}
	return pinned(func(i int) image.Rectangle { return *all[i].at }, controls...)
}

func (p *Prepare) nextMethod(g *Game) {
	p.sheet.method = nextMethod(p.sheet.method, p.sheet.brief.Beacon)
	g.Rebuild()
}

func (p *Prepare) nextChannel(g *Game) {
	all := p.sheet.channels()
	p.sheet.painted = all[(slices.Index(all, p.sheet.painted)+1)%len(all)]
	g.Rebuild()
}

func (p *Prepare) toLines(g *Game) {
	g.Unfocus()
	p.lines.dirty = true // the range scale may be another
	g.Go(p.lines)
}

// begin begins the watch, unless a figure will not do.
func (p *Prepare) begin(g *Game) {
	if faults := p.sheet.faults(); len(faults) > 0 {
		p.refused = true
		g.say("The watch cannot begin like this. " + faults[0])
		return
	}
	p.refused = false
	orders, why := p.lines.orders()
	if why != "" {
		g.say("The watch cannot begin like this. " + why)
		return
	}
	s, err := p.start(g, append(p.sheet.orders(), orders...))
	if err != nil {
		g.say(err.Error())
		return
	}
	g.Go(s)
}

// step steps the figure that has the keys.
func (p *Prepare) step(f *entered, by float64) {
	p.sheet.nudge(f, by)
	p.write(f)
}

// Update implements [Screen].
func (p *Prepare) Update(g *Game) error {
	now := p.typing()
	if now != nil {
		p.about = now
	}
	switch {
	case justPressed(ebiten.KeyTab) && shiftHeld():
		p.next(g, -1)
	case justPressed(ebiten.KeyTab):
		p.next(g, 1)
	case now != nil && again(ebiten.KeyUp):
		p.step(now, 1)
	case now != nil && again(ebiten.KeyDown):
		p.step(now, -1)
	case g.Typing():
	case justPressed(ebiten.KeyEnter):
		p.begin(g)
	case justPressed(ebiten.KeyEscape):
		p.back(g)
	case justPressed(ebiten.KeyM):
		p.nextMethod(g)
	case justPressed(ebiten.KeyC):
		p.nextChannel(g)
	case justPressed(ebiten.KeyL):
		p.toLines(g)
	case justPressed(ebiten.KeyPageUp):
		p.turn(g, -1)
	case justPressed(ebiten.KeyPageDown):
		p.turn(g, 1)
	}
	return nil
}

// says returns the line under the sheet, and whether it tells of a fault.
func (p *Prepare) says() (line string, fault bool) {
	faults := p.sheet.faults()
	if p.about != nil && p.sheet.fault(p.about) != "" {
		return p.sheet.fault(p.about), true
	}
	if len(faults) > 0 {
		if len(faults) > 1 {
			return fmt.Sprintf("%s %d more will not do.", faults[0], len(faults)-1), true
		}
		return faults[0], true
	}
	if f := p.about; f != nil {
		unit := ""
		if f.unit != "" {
			unit = " " + f.unit
		}
		return fmt.Sprintf("%s: %s are allowed; you were given %s%s. Up and Down step it.", f.name, p.sheet.allowed(f), f.write(f.given), unit), false
	}
	return "Type over a figure to change it. The desk works with what stands here; what is so aboard stays as it is.", false
}

// Draw implements [Screen].
func (p *Prepare) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	x := float64(l.Px(20))
	look.Write(dst, "Mobilisation sheet", l.Title, x, float64(l.Px(12)), l.Ink, look.Left)
	from := x + look.Wide("Mobilisation sheet", l.Title) + float64(l.Px(16))
	look.Write(dst, look.Fitted(p.title, l.Body, g.size.Dx()-int(from)-l.Px(20)), l.Body, from, float64(l.Px(20)), l.Soft, look.Left)
	says, fault := p.says()
	p.form.draw(g, dst, says, fault, underSheet)
	p.sketch(dst, l)
}

// Keys implements [Screen].
func (p *Prepare) Keys() []Key {
	return []Key{
		{"Tab", "next figure; with Shift the one before"}, {"Up, Down", "step the figure that has the keys"}, {"M", "another way to place the fish"}, {"C", "another channel is painted"}, {"L", "lines of your own"},
		{"PgUp, PgDn", "up and down the sheet"}, {"Enter", "begin the watch, when no figure has the keys"}, {"Esc", "back to the exercises"},
	}
}

// Inspect implements [Screen].
func (p *Prepare) Inspect() (string, map[string]Rect, any) {
	now := map[string]string{}
	for _, f := range p.sheet.figures {
		now[f.name] = f.text
	}
	return "prepare", map[string]Rect{"text": rect(p.text), "drawing": rect(p.drawing)},
		map[string]any{"figures": now, "faults": p.sheet.faults(), "method": p.sheet.method, "painted": p.sheet.painted, "refused": p.refused}
}
