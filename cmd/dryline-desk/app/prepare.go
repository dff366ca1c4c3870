package app

import (
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/exercise"
	"dryline/sim/order"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Prepare is the screen of the mobilisation sheet, before a watch. It has the brief of the
// exercise and not the exercise, as a watch has.
type Prepare struct {
	quiet
	sheet *mobilisation
	title string
	start func(*Game, []order.Command) (Screen, error)
	back  func(*Game)

	prose   prose
	page    int // of the sheet, where it does not fit on one
	inputs  map[*entered]*widget.TextInput
	refused bool // it was to begin with a fault
	about   *entered

	text, drawing image.Rectangle
}

// NewPrepare opens the sheet of an exercise.
func NewPrepare(ex *exercise.Exercise, back Screen) *Prepare {
	b := ex.Brief()
	return &Prepare{
		sheet: newSheet(b), title: b.Title,
		start: func(g *Game, orders []order.Command) (Screen, error) { return startPrepared(g, ex, orders) },
		back:  func(g *Game) { g.Go(back) },
	}
}

// Build implements [Screen].
func (p *Prepare) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	pad := l.Px(20)
	top := int(look.Tall(l.Title)) + l.Px(30)
	foot := image.Rect(pad, size.Max.Y-l.Px(48), size.Max.X-pad, size.Max.Y-l.Px(8))
	p.text = image.Rect(pad, top, size.Max.X*52/100, foot.Min.Y-l.Px(8))
	p.drawing = image.Rect(p.text.Max.X+l.Px(12), top, size.Max.X-pad, p.text.Max.Y)
	inner := p.text.Inset(l.Px(14))
	inner.Max.Y -= 2 * p.lineTall(l) // what is said of a figure
	p.prose = layProse(l, p.sheet.sentences(), inner)
	p.page = min(p.page, p.prose.pages-1)
	p.inputs = map[*entered]*widget.TextInput{}
	var at []image.Rectangle
	var all []widget.PreferredSizeLocateableWidget
	add := func(w widget.PreferredSizeLocateableWidget, r image.Rectangle) {
		all, at = append(all, w), append(at, r)
	}
	for i := range p.prose.laid {
		q := &p.prose.laid[i]
		switch {
		case q.page != p.page:
		case q.figure != nil:
			f := q.figure
			in := l.Field("", fieldWide, func(string) { g.Unfocus() })
			in.SetText(f.text)
			in.ChangedEvent.AddHandler(func(any) { f.text = in.GetText() })
			in.GetWidget().CursorEnterEvent.AddHandler(func(any) { p.about = f })
			p.inputs[f] = in
			add(in, q.at)
		case q.method:
			add(explained(g, l.Button(methodSays(p.sheet.method), look.Plain, func() { p.nextMethod(g) }), "Another way to place the fish (M)."), q.at)
		}
	}
	buttons := []widget.PreferredSizeLocateableWidget{
		l.Button("Begin the watch", look.Chosen, func() { p.begin(g) }),
		explained(g, l.Button("As the exercise has it", look.Plain, func() { p.sheet.restore(); p.refused = false; g.Rebuild() }), "Every figure as it was when you opened the sheet."),
		l.Button("Back", look.Plain, func() { p.back(g) }),
	}
	if p.prose.pages > 1 {
		buttons = append(buttons, able(l.Button("Up the sheet", look.Plain, func() { p.turn(g, -1) }), p.page > 0),
			able(l.Button("Down the sheet", look.Plain, func() { p.turn(g, 1) }), p.page+1 < p.prose.pages))
	}
	add(centredRow(l.Row(4, 10, append(buttons, l.Label("Training aid. Not for navigation.", l.Small, l.Soft, 0))...)), foot)
	return pinned(func(i int) image.Rectangle { return at[i] }, all...)
}

func (p *Prepare) lineTall(l *look.Look) int { return int(look.Tall(l.Body)) + l.Px(2) }

func (p *Prepare) nextMethod(g *Game) {
	p.sheet.method = nextMethod(p.sheet.method, p.sheet.brief.Beacon)
	g.Rebuild()
}

func (p *Prepare) turn(g *Game, by int) {
	p.page = min(max(p.page+by, 0), p.prose.pages-1)
	g.Rebuild()
}

// begin begins the watch, unless a figure will not do.
func (p *Prepare) begin(g *Game) {
	if faults := p.sheet.faults(); len(faults) > 0 {
		p.refused = true
		g.say("The watch cannot begin like this. " + faults[0])
		return
	}
	p.refused = false
	s, err := p.start(g, p.sheet.orders())
	if err != nil {
		g.say(err.Error())
		return
	}
	g.Go(s)
}

// typing is the figure that has the keys, nil if none has.
func (p *Prepare) typing() *entered {
	for f, in := range p.inputs {
		if in.IsFocused() {
			return f
		}
	}
	return nil
}

// next gives the keys to the next figure, or the one before, and turns to it.
func (p *Prepare) next(g *Game, by int) {
	n := len(p.sheet.figures)
	at, now := -1, p.typing()
	for i, f := range p.sheet.figures {
		if f == now {
			at = i
		}
	}
	if at < 0 && by < 0 {
		at = 0
	}
	f := p.sheet.figures[(at+by+n)%n]
	if page := p.prose.pageOf(f); page != p.page {
		p.page = page
		g.ui.Container = p.Build(g, g.area())
	}
	g.ui.SetFocusedWidget(p.inputs[f])
	p.inputs[f].SelectAll()
}

// step steps the figure that has the keys.
func (p *Prepare) step(f *entered, by float64) {
	p.sheet.nudge(f, by)
	p.inputs[f].SetText(f.text)
}

// Update implements [Screen].
func (p *Prepare) Update(g *Game) error {
	now := p.typing()
	if now != nil {
		p.about = now
	}
	switch {
	case justPressed(ebiten.KeyTab) && ebiten.IsKeyPressed(ebiten.KeyShift):
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
	case justPressed(ebiten.KeyPageUp):
		p.turn(g, -1)
	case justPressed(ebiten.KeyPageDown):
		p.turn(g, 1)
	}
	return nil
}

// says is what there is to say under the sheet, and whether it is a fault.
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
	look.Fill(dst, p.text, l.Panel)
	pane := dst.SubImage(p.text).(*ebiten.Image)
	for i := range p.prose.laid {
		q := &p.prose.laid[i]
		switch {
		case q.page != p.page:
		case q.figure != nil:
			if p.sheet.fault(q.figure) != "" {
				look.Frame(dst, q.at.Inset(-l.Px(2)), l.Px(2), l.Alarm)
			} else if q.figure == p.about {
				look.Frame(dst, q.at.Inset(-l.Px(2)), l.Px(2), l.Accent)
			}
		case q.words != "" && q.heading:
			look.Write(pane, q.words, l.Strong, float64(q.at.Min.X), float64(q.at.Min.Y), l.Ink, look.Left)
		case q.words != "":
			look.Write(pane, q.words, l.Body, float64(q.at.Min.X), float64(q.at.Min.Y), l.Ink, look.Left)
		}
	}
	says, fault := p.says()
	ink := l.Soft
	if fault {
		ink, says = l.Alarm, "! "+says
	}
	y := float64(p.text.Max.Y - l.Px(8) - 2*p.lineTall(l))
	lines := wrapped(says, l.Body, float64(p.text.Dx()-l.Px(28)))
	for _, line := range lines[:min(len(lines), 2)] {
		look.Write(pane, line, l.Body, float64(p.text.Min.X+l.Px(14)), y, ink, look.Left)
		y += float64(p.lineTall(l))
	}
	p.draw(dst, l)
}

// Keys implements [Screen].
func (p *Prepare) Keys() []Key {
	return []Key{
		{"Tab", "next figure; with Shift the one before"}, {"Up, Down", "step the figure that has the keys"}, {"M", "another way to place the fish"},
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
		map[string]any{"figures": now, "faults": p.sheet.faults(), "method": p.sheet.method, "refused": p.refused}
}
