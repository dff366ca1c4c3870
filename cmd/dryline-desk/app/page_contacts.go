package app

import (
	"fmt"
	"image"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim"
	"dryline/sim/survey"

	"github.com/ebitenui/ebitenui/widget"
)

// contactsPage marks, measures, names and lists contacts.
type contactsPage struct {
	said  string // what the list was built from
	first int    // of the contacts shown
	mark  *widget.Button
}

func (p *contactsPage) build(g *Game, w *Watch, r image.Rectangle) *widget.Container {
	l := g.Look
	p.said = p.state(w)
	p.mark = l.Button("Mark M", tone(w.marking), func() { w.marking = !w.marking })
	var measures []widget.PreferredSizeLocateableWidget
	for _, m := range []string{"length", "width", "shadow"} {
		measures = append(measures, l.Button(m, tone(w.measure == m), func() { w.measure = m }))
	}
	c, ok := w.contact()
	can := func(b *widget.Button, can bool) *widget.Button {
		b.GetWidget().Disabled = !can
		return b
	}
	rows := []widget.PreferredSizeLocateableWidget{
		l.Row(0, 4, p.mark,
			can(l.Button("Drop", look.Plain, w.dropContact), ok),
			can(l.Button("Undo Z", look.Plain, w.undoContact), w.view.CanUndo),
			can(l.Button("Redo", look.Plain, w.redoContact), w.view.CanRedo)),
	}
	if ok {
		name := l.Field("name", 120, func(s string) {
			if s = strings.TrimSpace(s); s != "" {
				w.give(sim.Command{Do: sim.NameContact, Number: c.Number, Text: s})
			}
			g.Unfocus()
		})
		name.SetText(contactName(c))
		rows = append(rows,
			l.Row(0, 4, measures...),
			l.Row(0, 4, name, l.Button(className(c), look.Plain, func() {
				w.give(sim.Command{Do: sim.ClassContact, Number: c.Number, Text: nextClass(c.Class)})
			})),
			l.Label(contactSays(c), l.Small, l.Ink, r.Dx()),
		)
	} else {
		rows = append(rows, l.Label("Mark a contact on the waterfall or the chart. Then drag on the waterfall to measure it.", l.Small, l.Soft, r.Dx()))
	}
	rows = append(rows, p.list(g, w, r)...)
	return l.Column(2, 5, rows...)
}

// list is a button a contact, as many as fit.
func (p *contactsPage) list(g *Game, w *Watch, r image.Rectangle) []widget.PreferredSizeLocateableWidget {
	l := g.Look
	all := w.view.Contacts
	fit := max((r.Dy()-l.Px(190))/l.Px(30), 2)
	p.first = max(min(p.first, len(all)-fit), 0)
	var rows []widget.PreferredSizeLocateableWidget
	for _, c := range all[p.first:min(p.first+fit, len(all))] {
		label := fmt.Sprintf("%s  %s", contactName(c), className(c))
		rows = append(rows, l.Button(fittedTo(label, l, l.Body, r.Dx()-l.Px(30)), tone(c.Number == w.chosen), func() { w.chosen = c.Number }))
	}
	if len(all) > fit {
		rows = append(rows, l.Row(0, 4,
			l.Button("Earlier", look.Plain, func() { p.first -= fit; g.Rebuild() }),
			l.Button("Later", look.Plain, func() { p.first += fit; g.Rebuild() }),
			l.Label(fmt.Sprintf("%d contacts", len(all)), l.Small, l.Soft, 0)))
	}
	return rows
}

func (p *contactsPage) update(g *Game, w *Watch) {
	if w.chosen == -1 && len(w.view.Contacts) > 0 {
		w.chosen = newest(w.view.Contacts)
	}
	if !g.Typing() && p.state(w) != p.said {
		g.Rebuild()
	}
}

// state is all that the page shows, to see whether it has changed.
func (p *contactsPage) state(w *Watch) string {
	return fmt.Sprint(w.marking, w.measure, w.chosen, w.view.Contacts, w.view.CanUndo, w.view.CanRedo)
}

// contact is the contact chosen.
func (w *Watch) contact() (survey.Contact, bool) {
	for _, c := range w.view.Contacts {
		if c.Number == w.chosen {
			return c, true
		}
	}
	return survey.Contact{}, false
}

func newest(list []survey.Contact) int {
	n := 0
	for _, c := range list {
		n = max(n, c.Number)
	}
	return n
}

func contactName(c survey.Contact) string {
	if c.Name != "" {
		return c.Name
	}
	return fmt.Sprintf("C%d", c.Number)
}

func className(c survey.Contact) string {
	if c.Class == "" {
		return string(survey.Classes()[0])
	}
	return strings.ReplaceAll(string(c.Class), "_", " ")
}

func contactSays(c survey.Contact) string {
	size := func(v float64) string {
		if v == 0 {
			return "not measured"
		}
		return fmt.Sprintf("%.1f m", v)
	}
	s := fmt.Sprintf("length %s, width %s, shadow %s", size(c.Length), size(c.Width), size(c.Shadow))
	if c.Height > 0 {
		s += fmt.Sprintf(", so about %.1f m high", c.Height)
	}
	return s
}

func tone(on bool) look.Tone {
	if on {
		return look.Chosen
	}
	return look.Plain
}

// nextClass goes round the classes.
func nextClass(now survey.Class) string {
	all := survey.Classes()
	for i, c := range all {
		if c == now {
			return string(all[(i+1)%len(all)])
		}
	}
	return string(all[0])
}
