package app

import (
	"errors"
	"image"
	"slices"
	"strings"

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
	text     image.Rectangle
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
	return p, nil
}

// Build implements [Screen].
func (p *Practice) Build(g *Game, size image.Rectangle) *widget.Container {
	l := g.Look
	p.inputs = make([]*widget.TextInput, len(p.fields))
	pad := l.Px(20)
	top := int(look.Tall(l.Title)) + l.Px(30)
	foot := image.Rect(pad, size.Max.Y-l.Px(48), size.Max.X-pad, size.Max.Y-l.Px(8))
	p.text = image.Rect(size.Max.X-pad-l.Px(330), top, size.Max.X-pad, foot.Min.Y-l.Px(8))
	left := image.Rect(pad, top, p.text.Min.X-pad, foot.Min.Y-l.Px(8))
	var shown []int
	for i, f := range p.fields {
		if f.Group == p.groups[p.group] {
			shown = append(shown, i)
		}
	}
	// A short group stands in one column, a long one in two.
	half := max((len(shown)+1)/2, min(len(shown), 9))
	column := func(which []int) *widget.Container {
		var rows []widget.PreferredSizeLocateableWidget
		for _, i := range which {
			rows = append(rows, p.row(g, i))
		}
		return l.Backed(l.Column(10, 6, rows...), l.Panel)
	}
	var tabs []widget.PreferredSizeLocateableWidget
	for i, name := range p.groups {
		says := name
		if p.groupFaulty(name) {
			says += " !"
		}
		tabs = append(tabs, l.Button(says, chosenIf(i == p.group), func() { p.turn(g, i) }))
	}
	head := image.Rect(left.Min.X, left.Min.Y, left.Max.X, left.Min.Y+l.Px(36))
	left.Min.Y = head.Max.Y
	middle := (left.Min.X + left.Max.X) / 2
	one, two := image.Rect(left.Min.X, left.Min.Y, middle-l.Px(6), left.Max.Y), image.Rect(middle+l.Px(6), left.Min.Y, left.Max.X, left.Max.Y)
	if half == len(shown) {
		one, two = left, image.Rectangle{Min: left.Max, Max: left.Max}
	}
	return pinned(func(i int) image.Rectangle { return []image.Rectangle{one, two, head, foot}[i] }, column(shown[:half]), column(shown[half:]), l.Row(0, 6, tabs...),
		l.Row(4, 10,
			l.Button("Begin the watch", look.Chosen, func() { p.begin(g) }),
			l.Button("Reset", look.Plain, func() { p.restore(); g.Rebuild() }),
			l.Button("Back", look.Plain, func() { g.Go(chooseAt(p.exercise.Name)) }),
		))
}

// row is one value: its name, a field or the choice, and its unit.
func (p *Practice) row(g *Game, i int) *widget.Container {
	l, f := g.Look, &p.fields[i]
	name := l.Label(f.Label, l.Body, l.Ink, 0)
	if p.faulty[f.Path] {
		name = l.Label("! "+f.Label, l.Strong, l.Alarm, 0)
	}
	name.GetWidget().MinWidth = l.Px(160)
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
			p.faults, p.faulty = nil, nil
			g.Rebuild()
		})
		hover(b.GetWidget())
		return row(name, b)
	}
	in := l.Field("", 100, func(string) { g.Unfocus() })
	in.SetText(p.now[i])
	in.ChangedEvent.AddHandler(func(any) { p.now[i] = in.GetText() })
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
	p.faults, p.faulty = nil, nil
	for i, f := range p.fields {
		p.now[i] = f.Value
	}
}

// begin makes the exercise file of what was changed and starts it.
func (p *Practice) begin(g *Game) {
	var changes []scenarios.Change
	for i, f := range p.fields {
		if now := strings.TrimSpace(p.now[i]); now != f.Value {
			changes = append(changes, scenarios.Change{Path: f.Path, Value: now})
		}
	}
	name := p.exercise.Name + ".yaml"
	source, err := scenarios.Edit(name, p.exercise.Source, changes)
	var ex *exercise.Exercise
	if err == nil {
		ex, err = scenarios.Parse(name, source)
	}
	if err != nil {
		p.refuse(g, err)
		return
	}
	s, err := Start(g, ex)
	if err != nil {
		p.faults, p.about = []string{err.Error()}, -1
		return
	}
	g.Go(s)
}

// refuse says what is wrong and turns to the first value that will not do.
func (p *Practice) refuse(g *Game, err error) {
	p.faults, p.faulty, p.about = nil, map[string]bool{}, -1
	faults, ok := errors.AsType[scenarios.Faults](err)
	if !ok {
		p.faults = []string{err.Error()}
		return
	}
	for _, f := range faults {
		p.faults = append(p.faults, p.plainly(f))
		p.faulty[f.Path] = true
	}
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
		p.nextField(g, ebiten.IsKeyPressed(ebiten.KeyShift))
	case g.Typing():
	case justPressed(ebiten.KeyEnter):
		p.begin(g)
	case justPressed(ebiten.KeyEscape):
		g.Go(chooseAt(p.exercise.Name))
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
		{"Tab", "next field; with Shift the previous one"}, {"PgUp, PgDn", "other values"},
		{"Enter", "begin the watch, when no field has the keys"}, {"Esc", "back to the exercises"},
	}
}

// Inspect implements [Screen].
func (p *Practice) Inspect() (string, map[string]Rect, any) {
	return "practice", map[string]Rect{"text": rect(p.text)}, map[string]any{"faults": p.faults, "values": p.now}
}
