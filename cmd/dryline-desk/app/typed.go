package app

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/order"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// typedPanel takes the place of the rail while orders are typed: what is stepped there and on the page of the
// sonar, each as a figure with its unit. Only what was typed over becomes an order.
type typedPanel struct {
	open    bool
	focus   int // figure that is to have the keys once they are built, -1 for none
	figures []*typedFigure
}

// typedFigure is one of them.
type typedFigure struct {
	do       order.Do
	channel  string // of the sonar, or empty
	label    string
	decimals int
	times    float64 // the order's unit is so many of the person's

	was  string // as it was when the panel was opened
	text string
	in   *widget.TextInput
}

// show opens the panel, with the keys at the figure of an order.
func (p *typedPanel) show(g *Game, w *Watch, at order.Do) {
	b, rec := &w.view.Bridge, &w.view.Recorder
	set, channel := &rec.Receivers[w.fall.channel], rec.Channels[w.fall.channel]
	p.open, p.focus, p.figures = true, 0, nil
	add := func(do order.Do, channel, label string, decimals int, times, now float64) {
		text := strconv.FormatFloat(now/times, 'f', decimals, 64)
		if do == at {
			p.focus = len(p.figures)
		}
		p.figures = append(p.figures, &typedFigure{do, channel, label, decimals, times, text, text, nil})
	}
	heading := float64(w.view.Reading.GridHeading())
	if b.Steering.Do == order.SteerHeading {
		heading = b.Steering.Value
	}
	add(order.SteerHeading, "", "Heading, ° grid", 0, math.Pi/180, math.Mod(heading+2*math.Pi, 2*math.Pi))
	add(order.Speed, "", "Speed, kn", 1, knot, w.orderedTo(order.Speed, b.Speed))
	add(order.Cable, "", "Cable out, m", 1, 1, w.orderedTo(order.Cable, b.CableOrdered))
	add(order.Range, "", "Range scale, m", 0, 1, w.orderedTo(order.Range, rec.RangeScale))
	add(order.Gain, channel, "Gain, dB", 0, 1, set.Gain)
	add(order.TVG, channel, "TVG, log R", 0, 1, set.TVGSpreading)
	add(order.TVGLoss, channel, "TVG, dB/km", 0, 1, set.TVGAbsorption)
	g.Rebuild()
}

func (p *typedPanel) hide(g *Game) {
	p.open = false
	g.Unfocus()
	g.Rebuild()
}

// command is the order of a figure, and whether it was typed over.
func (f *typedFigure) command() (o order.Command, changed bool, err error) {
	text := strings.TrimSpace(f.text)
	if text == f.was {
		return o, false, nil
	}
	v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return o, true, fmt.Errorf("%s: %q is no number", f.label, text)
	}
	if f.do == order.SteerHeading {
		if v < 0 || v > 360 {
			return o, true, fmt.Errorf("%s: %g is no heading (want 0 to 360)", f.label, v)
		}
		v = math.Mod(v, 360)
	}
	return order.Command{Do: f.do, Text: f.channel, Value: v * f.times}, true, nil
}

// give gives all that was typed over, or says what of it will not do.
func (p *typedPanel) give(g *Game, w *Watch) {
	var orders []order.Command
	for i, f := range p.figures {
		f.text = f.in.GetText()
		o, changed, err := f.command()
		if !changed {
			continue
		}
		if err == nil {
			if fault := o.Check(w.brief); fault != nil {
				err = fmt.Errorf("%s: %s", f.label, f.refusal(w, fault))
			}
		}
		if err != nil {
			g.say(err.Error() + ".")
			p.focus = i
			g.Rebuild()
			return
		}
		orders = append(orders, o)
	}
	w.give(orders...)
	p.hide(g)
}

// refusal is why a figure is refused, in the unit it is typed in.
func (f *typedFigure) refusal(w *Watch, err error) string {
	if low, high, ok := order.Limits(w.brief, f.do); ok {
		return fmt.Sprintf("%s will not do (want %.4g to %.4g)", strings.TrimSpace(f.text), low/f.times, high/f.times)
	}
	return strings.TrimPrefix(err.Error(), string(f.do)+": ")
}

// build lays the panel out.
func (p *typedPanel) build(g *Game, w *Watch) *widget.Container {
	l := g.Look
	var all []widget.PreferredSizeLocateableWidget
	for _, f := range p.figures {
		f.in = l.Field("", fieldWide, func(string) { p.give(g, w) })
		f.in.SetText(f.text)
		f.in.ChangedEvent.AddHandler(func(any) { f.text = f.in.GetText() })
		all = append(all, l.Column(0, 3, l.Label(f.label, l.Small, l.Ink, 0), f.in))
	}
	buttons := l.Row(0, 4,
		explained(g, l.Button("Order it", look.Chosen, func() { p.give(g, w) }), "Give the orders of what was typed over (Enter)."),
		explained(g, l.Button("Never mind", look.Plain, func() { p.hide(g) }), "Leave everything as it is (Esc)."))
	all = append(all, l.Column(0, 3, l.Label("Tab goes on, Enter orders", l.Small, l.Soft, 0), buttons))
	return l.Backed(l.Row(6, 10, all...), l.Panel)
}

// update gives the keys to the figure that is to have them, and moves on with Tab.
func (p *typedPanel) update(g *Game) {
	if !p.open || g.stale {
		return
	}
	at := p.focus
	if at < 0 {
		for i, f := range p.figures {
			if f.in != nil && f.in.IsFocused() {
				at = i
			}
		}
		by := 1
		switch {
		case justPressed(ebiten.KeyEscape):
			p.hide(g)
			return
		case !justPressed(ebiten.KeyTab):
			return
		case shiftHeld():
			by = -1
		}
		at = (at + by + len(p.figures)) % len(p.figures)
	}
	p.focus = -1
	f := p.figures[max(at, 0)]
	if f.in == nil {
		return
	}
	g.ui.SetFocusedWidget(f.in)
	f.in.SelectAll()
}

// typedOf has what a station says open the panel when it is clicked: it is what can be typed.
func typedOf(g *Game, w *Watch, says *widget.Text, at order.Do) widget.PreferredSizeLocateableWidget {
	says.GetWidget().MouseButtonReleasedEvent.AddHandler(func(args any) {
		if e, ok := args.(*widget.WidgetMouseButtonReleasedEventArgs); ok && e.Inside {
			w.typed.show(g, w, at)
		}
	})
	return says
}
