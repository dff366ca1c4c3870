package app

import (
	"fmt"
	"image"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// contactsPage marks, measures, names and lists contacts.
type contactsPage struct {
	said     string            // what the list was built from
	first    int               // of the contacts shown
	turned   int               // contact the list was turned to
	classing bool              // a class is being chosen for the contact, in place of the list
	name     *widget.TextInput // of the contact chosen, nil without one
	chip     chip              // of it

	of                      int  // contact that this is of:
	editing, focused, fresh bool // the name is to get the keys, has them, has just got them
}

func (p *contactsPage) build(g *Game, w *Watch, r image.Rectangle) *widget.Container {
	l := g.Look
	p.said, p.name = p.state(w), nil
	c, ok := w.contacts.contact()
	rows := []widget.PreferredSizeLocateableWidget{
		l.Row(0, 4, w.button(g, markContact, chosenIf(w.contacts.marking)), w.button(g, dropContact, look.Plain),
			w.button(g, undoContact, look.Plain), w.button(g, redoContact, look.Plain)),
	}
	if ok {
		rows = append(rows, p.one(g, w, c, r)...)
	} else {
		rows = append(rows, l.Label("Mark a contact on the waterfall or the chart. Then drag on the waterfall to measure it.", l.Small, l.Soft, r.Dx()))
	}
	free := r.Dy() - l.Px(4)
	for _, row := range rows {
		free -= tallOf(row) + l.Px(5)
	}
	if ok && p.classing {
		rows = append(rows, p.classes(g, w, c, r)...)
	} else {
		rows = append(rows, p.list(g, w, r, free)...)
	}
	return l.Column(2, 5, rows...)
}

// one has the controls for the contact chosen, and says what is known of it.
func (p *contactsPage) one(g *Game, w *Watch, c survey.Contact, r image.Rectangle) []widget.PreferredSizeLocateableWidget {
	l := g.Look
	var measures []widget.PreferredSizeLocateableWidget
	for _, d := range []deed{measureLength, measureWidth, measureShadow} {
		measures = append(measures, w.button(g, d, chosenIf(w.contacts.measure == actions[d].label)))
	}
	p.name = l.Field("name", 120, func(s string) {
		if s = strings.TrimSpace(s); s != "" {
			w.give(order.Command{Do: order.NameContact, Number: c.Number, Text: s})
		}
		g.Unfocus()
	})
	p.name.SetText(contactName(c))
	class := l.Button(className(c), chosenIf(p.classing), func() { p.classing = !p.classing; g.Rebuild() })
	says := func(wide int) *widget.Container {
		return l.Column(0, 3, l.Label(contactSays(c), l.Small, l.Ink, wide), l.Label(w.contactPlace(c), l.Small, l.Soft, wide))
	}
	known := says(r.Dx())
	if p.chip.follow(&w.fall, &c, l.Px(chipSide), g.shade(w.fall.brightness)); p.chip.picture != nil {
		side := l.Px(chipSide)
		shown := widget.NewGraphic(widget.GraphicOpts.Image(p.chip.picture), widget.GraphicOpts.WidgetOpts(widget.WidgetOpts.MinSize(side, side)))
		known = l.Row(0, 8, shown, says(r.Dx()-side-l.Px(8)))
	}
	return []widget.PreferredSizeLocateableWidget{
		l.Row(0, 4, measures...),
		l.Row(0, 4, explained(g, p.name, "Its name (E): Enter keeps what you typed, Esc does not."), explained(g, class, "Its class (O): choose what it is.")),
		known,
	}
}

// classes are the classes to choose from, as many beside each other as fit.
func (p *contactsPage) classes(g *Game, w *Watch, c survey.Contact, r image.Rectangle) []widget.PreferredSizeLocateableWidget {
	l := g.Look
	var rows, row []widget.PreferredSizeLocateableWidget
	used := 0
	for _, class := range survey.Classes() {
		b := l.Button(strings.ReplaceAll(string(class), "_", " "), chosenIf(c.Class == class), func() {
			w.give(order.Command{Do: order.ClassContact, Number: c.Number, Text: string(class)})
			p.classing = false
			g.Rebuild()
		})
		b.Validate()
		wide, _ := b.PreferredSize()
		if used > 0 && used+wide > r.Dx()-l.Px(8) {
			rows, row, used = append(rows, l.Row(0, 4, row...)), nil, 0
		}
		row, used = append(row, b), used+wide+l.Px(4)
	}
	return append(rows, l.Row(0, 4, row...))
}

// tallOf is the height a control asks for.
func tallOf(w widget.PreferredSizeLocateableWidget) int {
	w.Validate()
	_, tall := w.PreferredSize()
	return tall
}

// list is a button a contact, as many as fit the height that is free.
func (p *contactsPage) list(g *Game, w *Watch, r image.Rectangle, free int) []widget.PreferredSizeLocateableWidget {
	l := g.Look
	all := w.view.Contacts
	tall := tallOf(l.Button("C1", look.Plain, nil)) + l.Px(5)
	fit := max(free/tall, 1)
	if len(all) > fit {
		fit = max(fit-1, 1) // room to turn the pages
	}
	if at := w.contacts.index(); at >= 0 && p.turned != w.contacts.chosen {
		p.turned = w.contacts.chosen
		p.first = min(max(p.first, at-fit+1), at) // the list turns to a new or newly chosen one
	}
	p.first = max(min(p.first, len(all)-fit), 0)
	var rows []widget.PreferredSizeLocateableWidget
	for _, c := range all[p.first:min(p.first+fit, len(all))] {
		label := fmt.Sprintf("%s  %s", contactName(c), className(c))
		rows = append(rows, l.Button(look.Fitted(label, l.Body, r.Dx()-l.Px(30)), chosenIf(c.Number == w.contacts.chosen), func() { w.choose(c) }))
	}
	if len(all) > fit {
		rows = append(rows, centredRow(l.Row(0, 4,
			l.Button("Earlier", look.Plain, func() { p.first -= fit; g.Rebuild() }),
			l.Button("Later", look.Plain, func() { p.first += fit; g.Rebuild() }),
			l.Label(fmt.Sprintf("%d contacts", len(all)), l.Small, l.Soft, 0))))
	}
	return rows
}

// pick has a name that gets the keys selected whole, once the click that gave
// them is over.
func (p *contactsPage) pick(g *Game) {
	if p.editing && p.name != nil && !g.stale {
		p.editing = false
		g.ui.SetFocusedWidget(p.name)
	}
	focused := p.name != nil && p.name.IsFocused()
	if focused && !p.focused {
		p.fresh = true
	}
	p.focused = focused
	if p.fresh && !held(ebiten.MouseButtonLeft) {
		p.fresh = false
		if focused {
			p.name.SelectAll()
		}
	}
}

// settle forgets what was begun with another contact.
func (p *contactsPage) settle(w *Watch) {
	if _, ok := w.contacts.contact(); !ok || p.of != w.contacts.chosen {
		p.of, p.editing, p.classing = w.contacts.chosen, false, false
	}
}

// onContact turns to the contact chosen and does something with it, if there is
// one.
func (w *Watch) onContact(g *Game, do func(p *contactsPage)) {
	if _, ok := w.contacts.contact(); !ok {
		g.sayWhile("No contact is chosen.", func() bool { _, chosen := w.contacts.contact(); return !chosen })
		return
	}
	p := &w.side.contacts
	p.settle(w)
	w.side.show(g, tabContacts)
	do(p)
	g.Rebuild()
}

func (p *contactsPage) update(g *Game, w *Watch) {
	p.settle(w)
	p.pick(g)
	w.contacts.settle()
	if c, ok := w.contacts.contact(); ok {
		p.chip.follow(&w.fall, &c, g.Look.Px(chipSide), g.shade(w.fall.brightness))
	}
	if !g.Typing() && p.state(w) != p.said {
		g.Rebuild()
	}
}

// state is all that the page shows, to see whether it has changed.
func (p *contactsPage) state(w *Watch) string {
	return fmt.Sprint(w.contacts.marking, w.contacts.measure, w.contacts.chosen, p.classing, w.view.Contacts, w.view.CanUndo, w.view.CanRedo, p.chip.picture != nil)
}

func chosenIf(on bool) look.Emphasis {
	if on {
		return look.Chosen
	}
	return look.Plain
}
