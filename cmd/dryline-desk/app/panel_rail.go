package app

import (
	"fmt"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/order"

	"github.com/ebitenui/ebitenui/widget"
)

// railPanel is the row of stations at the foot: helm, engine, line and log,
// winch, sonar. Each says on its first row what was ordered, and takes orders on
// its second.
type railPanel struct {
	helm, engine, line, winch, sonar *widget.Text
	log                              *widget.Button
	heldPort, heldStarboard          bool
}

func (p *railPanel) build(g *Game, w *Watch) *widget.Container {
	l := g.Look
	say := func(longest string) *widget.Text { return l.Reading(longest, l.Small, l.Ink) }
	p.helm, p.engine = say("Helm: turning for "+longestLine(w)), say("Engine: pending")
	p.line, p.winch, p.sonar = say("Line "+longestLine(w)+", running 000° grid"), say("Winch: 100 m ordered"), say("Sonar: range scale 150 m")
	p.log = w.button(g, toggleLog, look.Plain)
	p.log.GetWidget().MinWidth = int(look.Wide("Log off", l.Body)) + l.Px(22) // also while it says less
	hold := func(d deed, held *bool) *widget.Button {
		a := &actions[d]
		return explained(g, l.Hold(a.label, func() { *held = true }, func() { *held = false }), a.says)
	}
	button := func(d deed) *widget.Button { return w.button(g, d, look.Plain) }
	station := func(says widget.PreferredSizeLocateableWidget, controls ...widget.PreferredSizeLocateableWidget) *widget.Container {
		return l.Column(0, 3, says, l.Row(0, 4, controls...))
	}
	row := l.Row(6, 16,
		station(typedOf(g, w, p.helm, order.SteerHeading), hold(rudderPort, &p.heldPort), hold(rudderStarboard, &p.heldStarboard), button(holdHeading)),
		station(typedOf(g, w, p.engine, order.Speed), button(slowDown), button(speedUp)),
		station(p.line, button(lineBefore), button(nextLine), button(reverseLine), button(steerToLine), p.log),
		station(typedOf(g, w, p.winch, order.Cable), button(haulIn), button(payOut)),
		station(typedOf(g, w, p.sonar, order.Range), button(rangeDown), button(rangeUp), button(nextChannel)),
	)
	p.says(w)
	return l.Backed(row, l.Panel)
}

func (p *railPanel) update(g *Game, w *Watch) {
	p.says(w)
	logging := w.view.Bridge.Logging != ""
	label, emphasis := "Log on", look.Plain
	if logging {
		label, emphasis = "Log off", look.Urgent
	}
	if p.log.Text().Label != label {
		p.log.SetText(label)
		g.Look.Emphasise(p.log, emphasis)
	}
}

// says letters what each station was told.
func (p *railPanel) says(w *Watch) {
	b := &w.view.Bridge
	p.helm.Label = "Helm: " + w.helm.says()
	if w.pending(order.SteerLine, order.SteerPoint, order.SteerHeading, order.Turn, order.Rudder) != nil {
		p.helm.Label = "Helm: pending"
	}
	p.engine.Label = fmt.Sprintf("Engine: %.1f kn", b.Speed/knot)
	if w.pending(order.Speed) != nil {
		p.engine.Label = "Engine: pending"
	}
	l := w.helm.chosen()
	p.line.Label = fmt.Sprintf("Line %s, running %03.0f° grid", l.Name, degrees(l.Track(w.helm.reversed).Bearing()))
	if w.pending(order.LogOn, order.LogOff) != nil {
		p.line.Label = fmt.Sprintf("Line %s, log pending", l.Name)
	}
	p.winch.Label = fmt.Sprintf("Winch: %.0f m ordered", b.CableOrdered)
	if o := w.pending(order.Cable); o != nil {
		p.winch.Label = fmt.Sprintf("Winch: %.0f m pending", o.Value)
	}
	p.sonar.Label = fmt.Sprintf("Sonar: range scale %.0f m", w.view.Recorder.RangeScale)
	if o := w.pending(order.Range); o != nil {
		p.sonar.Label = fmt.Sprintf("Sonar: %.0f m pending", o.Value)
	}
}
