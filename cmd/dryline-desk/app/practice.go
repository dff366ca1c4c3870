package app

import (
	"image"
	"image/color"
	"slices"

	"dryline/cmd/dryline-desk/look"
	"dryline/scenarios"
	"dryline/sim/exercise"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Practice is the screen where an exercise's values are changed before it is
// run. What comes of it is an exercise file like any other, so that the session
// log carries it whole.
type Practice struct {
	quiet
	exercise *exercise.Exercise
	fields   []scenarios.Field
	now      []string // values as they stand
	inputs   []*widget.TextInput
	faults   []string
	faulty   map[string]bool // paths of the values that will not do
	groups   []string
	group    int // shown
	about    int // field the pointer is on

	good  []string // values that last would do
	drawn towed    // by them
	names []*widget.Text
	inks  [2]color.Color // of a name, and of one whose value will not do
	tabs  []*widget.Button

	text, ahead, side, rose image.Rectangle
}

// NewPractice opens an exercise for changing.
func NewPractice(ex *exercise.Exercise) (*Practice, error) {
	fields, err := scenarios.FreePractice(ex.Name+".yaml", ex.Source)
	if err != nil {
		return nil, err
	}
	p := &Practice{exercise: ex, fields: fields, about: -1}
	for _, f := range fields {
		p.now = append(p.now, f.Value)
		if !slices.Contains(p.groups, f.Group) {
			p.groups = append(p.groups, f.Group)
		}
	}
	p.good = slices.Clone(p.now)
	p.drawn = towedBy(ex)
	return p, nil
}

// Build implements [Screen].
func (p *Practice) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	p.inputs, p.names = make([]*widget.TextInput, len(p.fields)), make([]*widget.Text, len(p.fields))
	p.inks, p.tabs = [2]color.Color{l.Ink, l.Alarm}, nil
	pad := l.Px(20)
	head := image.Rect(pad, l.Px(52), size.Max.X-pad, l.Px(52)+l.Px(36))
	foot := image.Rect(pad, size.Max.Y-l.Px(44), size.Max.X-pad, size.Max.Y-l.Px(4))
	body := image.Rect(pad, head.Max.Y, size.Max.X-pad, foot.Min.Y-l.Px(6))
	var shown []int
	for i, f := range p.fields {
		if f.Group == p.groups[p.group] {
			shown = append(shown, i)
		}
	}
	// A group stands in one column, and in two where it is longer than the window is tall.
	half := len(shown)
	if half*l.Px(valueTall) > body.Dy()-l.Px(20) {
		half = (half + 1) / 2
	}
	wide := l.Px(valueWide)
	one := image.Rect(body.Min.X, body.Min.Y, body.Min.X+wide, body.Max.Y)
	two := image.Rectangle{Min: one.Max, Max: one.Max}
	right := one.Max.X
	if half < len(shown) {
		two = image.Rect(one.Max.X+l.Px(8), one.Min.Y, one.Max.X+l.Px(8)+wide, one.Max.Y)
		right = two.Max.X
	}
	p.divide(l, image.Rect(right+l.Px(14), body.Min.Y, body.Max.X, body.Max.Y))
	column := func(which []int) *widget.Container {
		var rows []widget.PreferredSizeLocateableWidget
		for _, i := range which {
			rows = append(rows, p.row(g, i))
		}
		return l.Backed(l.Column(10, 6, rows...), l.Panel)
	}
	var tabs []widget.PreferredSizeLocateableWidget
	for i, name := range p.groups {
		b := l.Button(p.tabSays(i), chosenIf(i == p.group), func() { p.turn(g, i) })
		b.GetWidget().MinWidth = int(look.Wide(name+" !", l.Body)) + l.Px(22)
		p.tabs, tabs = append(p.tabs, b), append(tabs, b)
	}
	return pinned(func(i int) image.Rectangle { return []image.Rectangle{one, two, head, foot}[i] }, column(shown[:half]), column(shown[half:]), l.Row(0, 6, tabs...),
		centredRow(l.Row(4, 10,
			explained(g, l.Button("Begin the watch", look.Chosen, func() { p.begin(g) }), "Begin with these figures (Enter)."),
			explained(g, l.Button("Reset", look.Plain, func() { p.restore(); g.Rebuild() }), "Every figure as the exercise has it (Home)."),
			l.Button("Back", look.Plain, func() { g.Go(chooseAt(p.exercise.Name)) }),
			l.Label("Training aid. Not for navigation.", l.Small, l.Soft, 0),
		)))
}

const valueWide, valueTall = 338, 33 // points of a column, of a row

// divide gives the drawings and the words beside the figures their room.
func (p *Practice) divide(l *look.Look, r image.Rectangle) {
	words := min(max(r.Dy()*36/100, l.Px(168)), l.Px(240))
	gap := l.Px(8)
	round := min(words-2*l.Px(6), r.Dx()*2/5)
	p.rose = image.Rect(r.Max.X-l.Px(6)-round, r.Max.Y-l.Px(6)-round, r.Max.X-l.Px(6), r.Max.Y-l.Px(6))
	p.text = image.Rect(r.Min.X, r.Max.Y-words, r.Max.X, r.Max.Y)
	drawn := image.Rect(r.Min.X, r.Min.Y, r.Max.X, p.text.Min.Y-gap)
	middle := (drawn.Min.Y + drawn.Max.Y - gap) / 2
	p.ahead = image.Rect(drawn.Min.X, drawn.Min.Y, drawn.Max.X, middle)
	p.side = image.Rect(drawn.Min.X, middle+gap, drawn.Max.X, drawn.Max.Y)
}

// row is one value: its name, a field or the choice, and its unit.
func (p *Practice) row(g *Game, i int) *widget.Container {
	l, f := g.Look, &p.fields[i]
	says, ink := f.Label, p.inks[0]
	if p.faulty[f.Path] {
		says, ink = "! "+f.Label, p.inks[1]
	}
	name := l.Label(says, l.Body, ink, 0)
	name.GetWidget().MinWidth = max(l.Px(160), int(look.Wide("! "+f.Label, l.Body))+1)
	p.names[i] = name
	name.SetPosition(&widget.TextPositioning{VTextPosition: widget.TextPositionCenter})
	hover := func(w *widget.Widget) {
		w.CursorEnterEvent.AddHandler(func(any) { p.about = i })
	}
	hover(name.GetWidget())
	row := func(children ...widget.PreferredSizeLocateableWidget) *widget.Container {
		c := l.Row(0, 8, children...)
		centred(c)
		return c
	}
	if len(f.Choices) > 0 {
		b := l.Button(spoken(p.now[i]), look.Plain, func() {
			at := slices.Index(f.Choices, p.now[i])
			p.now[i] = f.Choices[(at+1)%len(f.Choices)]
			p.try()
			g.Rebuild()
		})
		hover(b.GetWidget())
		return row(name, b)
	}
	in := l.Field("", 100, func(string) { g.Unfocus() })
	in.SetText(p.now[i])
	in.ChangedEvent.AddHandler(func(any) { p.change(i, in.GetText()) })
	hover(in.GetWidget())
	p.inputs[i] = in
	return row(name, in, l.Label(f.Unit, l.Small, l.Soft, 0))
}

// nextField gives the keys to the next field that is shown, or the one before, all
// of it selected.
func (p *Practice) nextField(g *Game, backwards bool) {
	var shown []*widget.TextInput
	at := -1
	for _, in := range p.inputs {
		if in == nil {
			continue
		}
		if in.IsFocused() {
			at = len(shown)
		}
		shown = append(shown, in)
	}
	if len(shown) == 0 {
		return
	}
	if backwards {
		at = (max(at, 0) - 1 + len(shown)) % len(shown)
	} else {
		at = (at + 1) % len(shown)
	}
	g.ui.SetFocusedWidget(shown[at])
	shown[at].SelectAll()
}

// turn shows another group of values.
func (p *Practice) turn(g *Game, group int) {
	p.group, p.about = (group+len(p.groups))%len(p.groups), -1
	g.Rebuild()
}

func (p *Practice) groupFaulty(name string) bool {
	return slices.ContainsFunc(p.fields, func(f scenarios.Field) bool { return f.Group == name && p.faulty[f.Path] })
}

func (p *Practice) restore() {
	for i, f := range p.fields {
		p.now[i] = f.Value
	}
	p.try()
}

// begin starts the exercise of the values as they stand.
func (p *Practice) begin(g *Game) {
	ex, err := p.try()
	if err != nil {
		p.refuse(g)
		return
	}
	s, err := Start(g, ex)
	if err != nil {
		p.faults, p.about = []string{err.Error()}, -1
		return
	}
	g.Go(s)
}

// refuse turns to the first value that will not do.
func (p *Practice) refuse(g *Game) {
	p.about = -1
	if !p.groupFaulty(p.groups[p.group]) {
		if i := slices.IndexFunc(p.groups, p.groupFaulty); i >= 0 {
			p.group = i
		}
	}
	g.Rebuild()
}

// plainly says a fault by the field's label instead of its path.
func (p *Practice) plainly(f scenarios.Fault) string {
	where := f.Path
	for _, field := range p.fields {
		if field.Path == f.Path {
			where = field.Label
		}
	}
	says := where
	if f.Value != "" {
		says += ": " + f.Value
	}
	says += " " + f.Problem
	if f.Want != "" {
		says += " (want " + f.Want + ")"
	}
	return says
}

// Update implements [Screen].
func (p *Practice) Update(g *Game) error {
	switch {
	case justPressed(ebiten.KeyTab):
		p.nextField(g, shiftHeld())
	case g.Typing():
	case justPressed(ebiten.KeyEnter):
		p.begin(g)
	case justPressed(ebiten.KeyEscape):
		g.Go(chooseAt(p.exercise.Name))
	case justPressed(ebiten.KeyHome):
		p.restore()
		g.Rebuild()
	case justPressed(ebiten.KeyPageDown):
		p.turn(g, p.group+1)
	case justPressed(ebiten.KeyPageUp):
		p.turn(g, p.group-1)
	}
	for i, in := range p.inputs {
		if in != nil && in.IsFocused() {
			p.about = i
		}
	}
	return nil
}

// Keys implements [Screen].
func (p *Practice) Keys() []Key {
	return []Key{
		{"Tab", "next field; with Shift the previous one"}, {"PgUp, PgDn", "other values"}, {"Home", "every value as the exercise has it"},
		{"Enter", "begin the watch, when no field has the keys"}, {"Esc", "back to the exercises"},
	}
}

// Inspect implements [Screen].
func (p *Practice) Inspect() (string, map[string]Rect, any) {
	return "practice", map[string]Rect{"text": rect(p.text), "ahead": rect(p.ahead), "side": rect(p.side), "rose": rect(p.rose)}, map[string]any{"faults": p.faults, "values": p.now}
}
