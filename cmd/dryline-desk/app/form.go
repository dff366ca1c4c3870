package app

import (
	"image"
	"slices"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// form is a page of sentences with figures and choices in them, as a screen of the preparation shows it.
type form struct {
	prose  prose
	page   int // of it, where it does not fit on one
	inputs map[*entered]*widget.TextInput
	about  *entered
	text   image.Rectangle
	inner  image.Rectangle // of it, for the sentences

	figures func() []*entered // those that stand in it
	fault   func(*entered) string
	changed func() // a figure was typed
}

// placedControl is a control and where it lies.
type placedControl struct {
	widget.PreferredSizeLocateableWidget
	at *image.Rectangle
}

// build lays the sentences out and returns the controls in them. So many lines under them are kept free.
func (f *form) build(g *Game, all []chapter, under int) (out []placedControl) {
	l := g.Look
	inner := f.text.Inset(l.Px(14))
	inner.Max.Y -= under * lineTall(l)
	f.inner = inner
	f.prose = layProse(l, all, inner)
	f.page = min(f.page, f.prose.pages-1)
	f.inputs = map[*entered]*widget.TextInput{}
	for i := range f.prose.laid {
		q := f.prose.laid[i]
		switch {
		case q.page != f.page:
		case q.figure != nil:
			e := q.figure
			in := l.Field("", fieldWide, func(string) { g.Unfocus() })
			in.SetText(e.text)
			in.ChangedEvent.AddHandler(func(any) {
				if e.text = in.GetText(); f.changed != nil {
					f.changed()
				}
			})
			in.GetWidget().CursorEnterEvent.AddHandler(func(any) { f.about = e })
			f.inputs[e] = in
			out = append(out, placedControl{in, &q.at})
		case q.picker != nil:
			p := q.picker
			out = append(out, placedControl{explained(g, l.Button(p.says(), look.Plain, func() { p.next(g) }), p.tip), &q.at})
		}
	}
	return out
}

// reset sets the sentences anew round the controls there are, so that a figure can be typed on; it reports
// whether that could be done.
func (f *form) reset(g *Game, all []chapter) bool {
	now := layProse(g.Look, all, f.inner)
	on := func(p *prose) (list []*laid) {
		for i := range p.laid {
			if q := p.laid[i]; q.page == f.page && q.words == "" {
				list = append(list, q)
			}
		}
		return list
	}
	was, is := on(&f.prose), on(&now)
	if now.pages != f.prose.pages || !slices.EqualFunc(was, is, func(a, b *laid) bool { return a.figure == b.figure }) {
		return false
	}
	for i := range was {
		was[i].at = is[i].at // which is where the control looks
	}
	f.prose.take(&now)
	g.ui.Container.RequestRelayout()
	return true
}

func lineTall(l *look.Look) int { return int(look.Tall(l.Body)) + l.Px(2) }

// turning are the buttons that turn its pages, if it has several.
func (f *form) turning(g *Game) []widget.PreferredSizeLocateableWidget {
	if f.prose.pages < 2 {
		return nil
	}
	return []widget.PreferredSizeLocateableWidget{
		able(g.Look.Button("Up the sheet", look.Plain, func() { f.turn(g, -1) }), f.page > 0),
		able(g.Look.Button("Down the sheet", look.Plain, func() { f.turn(g, 1) }), f.page+1 < f.prose.pages),
	}
}

func (f *form) turn(g *Game, by int) {
	f.page = min(max(f.page+by, 0), f.prose.pages-1)
	g.Rebuild()
}

// typing is the figure that has the keys, nil if none has.
func (f *form) typing() *entered {
	for e, in := range f.inputs {
		if in.IsFocused() {
			return e
		}
	}
	return nil
}

// next gives the keys to the next figure, or the one before, and turns to it.
func (f *form) next(g *Game, by int) {
	all := f.figures()
	n := len(all)
	at, now := -1, f.typing()
	for i, e := range all {
		if e == now {
			at = i
		}
	}
	if at < 0 && by < 0 {
		at = 0
	}
	e := all[(at+by+n)%n]
	if page := f.prose.pageOf(e); page != f.page {
		f.page = page
		g.ui.Container = g.screen.Build(g, g.area())
	}
	g.ui.SetFocusedWidget(f.inputs[e])
	f.inputs[e].SelectAll()
}

// write has a figure's field say what the figure does.
func (f *form) write(e *entered) {
	if in := f.inputs[e]; in != nil {
		in.SetText(e.text)
	}
}

// draw letters the sentences, marks the figure that is typed and those that will not do, and says a
// line under them.
func (f *form) draw(g *Game, dst *ebiten.Image, says string, fault bool, under int) {
	l := g.Look
	look.Fill(dst, f.text, l.Panel)
	pane := dst.SubImage(f.text).(*ebiten.Image)
	for i := range f.prose.laid {
		q := f.prose.laid[i]
		switch {
		case q.page != f.page:
		case q.figure != nil:
			if f.fault(q.figure) != "" {
				look.Frame(dst, q.at.Inset(-l.Px(2)), l.Px(2), l.Alarm)
			} else if q.figure == f.about {
				look.Frame(dst, q.at.Inset(-l.Px(2)), l.Px(2), l.Accent)
			}
		case q.words != "" && q.heading:
			look.Write(pane, q.words, l.Strong, float64(q.at.Min.X), float64(q.at.Min.Y), l.Ink, look.Left)
		case q.words != "":
			look.Write(pane, q.words, l.Body, float64(q.at.Min.X), float64(q.at.Min.Y), l.Ink, look.Left)
		}
	}
	ink := l.Soft
	if fault {
		ink, says = l.Alarm, "! "+says
	}
	y := float64(f.text.Max.Y - l.Px(8) - under*lineTall(l))
	lines := wrapped(says, l.Body, float64(f.text.Dx()-l.Px(28)))
	if len(lines) > under {
		lines = lines[:under]
		lines[under-1] = look.Fitted(lines[under-1]+" ...", l.Body, f.text.Dx()-l.Px(28))
	}
	for _, line := range lines {
		look.Write(pane, line, l.Body, float64(f.text.Min.X+l.Px(14)), y, ink, look.Left)
		y += float64(lineTall(l))
	}
}
