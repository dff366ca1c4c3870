package app

import (
	"image"
	"slices"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/order"

	"github.com/ebitenui/ebitenui/widget"
)

// voice has everything that is said aloud on the watch: orders to the helmsman, where there is one,
// and calls to other vessels. It stands at the foot of the page of the watch, where there
// is anybody to speak to.
type voice struct {
	field *widget.TextInput
	tall  int      // of the controls, 0 for none
	names []string // who can be called
}

func (v *voice) build(g *Game, w *Watch, r image.Rectangle) *widget.Container {
	l := g.Look
	v.field, v.tall = nil, 0
	v.names = calls(w)
	var rows []widget.PreferredSizeLocateableWidget
	if w.brief.Help.Helmsman {
		v.field = l.Field("say to helm or winch", 190, func(s string) { v.say(g, w, s) })
		rows = append(rows, centredRow(l.Row(0, 4,
			explained(g, v.field, "Speak to the helmsman or the winch man: steer zero nine five, port ten, come up to line A, make four knots, haul in five, belay (Enter says it)."),
			l.Button("Say", look.Plain, func() { v.say(g, w, v.field.GetText()) }))))
	}
	var buttons []widget.PreferredSizeLocateableWidget
	for _, name := range v.names { // beside each other, in what room there is
		says := look.Fitted("Call "+name, l.Body, r.Dx()/len(v.names)-l.Px(24))
		buttons = append(buttons, explained(g, l.Button(says, look.Plain, func() {
			w.give(order.Command{Do: order.CallTraffic, Text: name})
		}), "Call her master early: that you tow, how long the tow is, and to keep clear of it."))
	}
	if len(buttons) > 0 {
		rows = append(rows, l.Row(0, 4, buttons...))
	}
	c := l.Column(0, 4, rows...)
	if len(rows) > 0 {
		c.Validate()
		_, v.tall = c.PreferredSize()
	}
	return c
}

func (v *voice) say(g *Game, w *Watch, text string) {
	if text = strings.TrimSpace(text); text != "" {
		w.give(order.Command{Do: order.Say, Text: text})
	}
	v.field.SetText("")
	g.Unfocus()
}

// update builds the page anew when others can be called.
func (v *voice) update(g *Game, w *Watch) {
	if !slices.Equal(v.names, calls(w)) {
		g.Rebuild()
	}
}

// calls are the vessels in sight that were not called yet, two at most: the
// first to have come into sight.
func calls(w *Watch) (names []string) {
	for i := range w.view.Bridge.Traffic {
		if t := &w.view.Bridge.Traffic[i]; !t.Called && len(names) < 2 {
			names = append(names, t.Name)
		}
	}
	return names
}
