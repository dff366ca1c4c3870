package app

import (
	"fmt"
	"math"

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
	p.log = l.Button("Log on", look.Plain, w.toggleLog)
	station := func(says *widget.Text, controls ...widget.PreferredSizeLocateableWidget) *widget.Container {
		return l.Column(0, 3, says, l.Row(0, 4, controls...))
	}
	row := l.Row(6, 16,
		station(p.helm,
			explained(g, l.Hold("◄ Port", func() { p.heldPort = true }, func() { p.heldPort = false }), "Rudder to port while you hold it; let go to hold the heading (Left)."),
			explained(g, l.Hold("Stbd ►", func() { p.heldStarboard = true }, func() { p.heldStarboard = false }), "Rudder to starboard while you hold it; let go to hold the heading (Right)."),
			explained(g, l.Button("Hold", look.Plain, w.holdHeading), "Hold the heading she has now (Home)."),
		),
		station(p.engine,
			explained(g, l.Button("−", look.Plain, func() { w.faster(-0.2 * knot) }), "A fifth of a knot slower over ground (Down). The fish sinks."),
			explained(g, l.Button("+", look.Plain, func() { w.faster(0.2 * knot) }), "A fifth of a knot faster over ground (Up). The fish rises."),
		),
		station(p.line,
			explained(g, l.Button("◄", look.Plain, func() { w.chooseLine(-1) }), "Choose the line before (B). Nothing is steered yet."),
			explained(g, l.Button("►", look.Plain, func() { w.chooseLine(1) }), "Choose the next line (N). Nothing is steered yet."),
			explained(g, l.Button("Reverse", look.Plain, func() { w.reversed = !w.reversed }), "Run the chosen line from its other end (R)."),
			explained(g, l.Button("Steer to it", look.Plain, w.steerToLine), "The autopilot takes her round to the run-in of the chosen line and along it (Enter)."),
			explained(g, p.log, "Open or close the record of the chosen line: on when the fish is at its start, off when it is past its end (L)."),
		),
		station(p.winch,
			explained(g, l.Button("▲ Haul in", look.Plain, func() { w.payOut(-1) }), "A metre of cable in (PgUp; five with Shift). The fish rises."),
			explained(g, l.Button("▼ Pay out", look.Plain, func() { w.payOut(1) }), "A metre of cable out (PgDn; five with Shift). The fish sinks."),
		),
		station(p.sonar,
			explained(g, l.Button("−", look.Plain, func() { w.rangeScale(-1) }), "A shorter range scale, with the log off (F): narrower, more pings, finer."),
			explained(g, l.Button("+", look.Plain, func() { w.rangeScale(1) }), "A longer range scale, with the log off (G): wider, fewer pings, coarser."),
			explained(g, able(l.Button("Channel", look.Plain, w.nextChannel), len(w.falls) > 1), "Show the next frequency of the sonar, if it has others (C; X shows all)."),
		),
	)
	p.says(w)
	return l.Backed(row, l.Panel)
}

func (p *railPanel) update(g *Game, w *Watch) {
	p.says(w)
	logging := w.view.Bridge.Logging != ""
	label, tone := "Log on", look.Plain
	if logging {
		label, tone = "Log off", look.Urgent
	}
	if p.log.Text().Label != label {
		p.log.SetText(label)
		g.Look.Retone(p.log, tone)
	}
}

// says letters what each station was told.
func (p *railPanel) says(w *Watch) {
	b := &w.view.Bridge
	p.helm.Label = "Helm: " + w.helmSays()
	if w.pending(order.SteerLine, order.SteerPoint, order.SteerHeading, order.Turn, order.Rudder) != nil {
		p.helm.Label = "Helm: pending"
	}
	p.engine.Label = fmt.Sprintf("Engine: %.1f kn", b.Speed/knot)
	if w.pending(order.Speed) != nil {
		p.engine.Label = "Engine: pending"
	}
	l := w.exercise.Lines[w.line]
	p.line.Label = fmt.Sprintf("Line %s, running %03.0f° grid", l.Name, degrees(l.Track(w.reversed).Bearing()))
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

// helmSays is the steering order in words.
func (w *Watch) helmSays() string {
	b := &w.view.Bridge
	switch c := b.Steering; c.Do {
	case order.SteerLine:
		return "along " + c.Line
	case order.Turn:
		return "turning for " + c.Line
	case order.SteerHeading:
		return fmt.Sprintf("heading %03.0f° grid", degrees(c.Value))
	case order.SteerPoint:
		return "for a point"
	}
	angle := b.Rudder * 180 / math.Pi
	side := "starboard"
	if angle < 0 {
		side = "port"
	}
	return fmt.Sprintf("by hand, %.0f° %s", math.Abs(angle), side)
}
