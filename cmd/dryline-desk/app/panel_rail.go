package app

import (
	"fmt"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim"

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
	p.helm, p.engine = say("Helm: turning for "+longestLine(w)), say("Engine: 10.0 kn")
	p.line, p.winch, p.sonar = say("Line "+longestLine(w)+", running 000° grid"), say("Winch: 100 m ordered"), say("Sonar: range scale 150 m")
	p.log = l.Button("Log on", look.Plain, w.toggleLog)
	station := func(says *widget.Text, controls ...widget.PreferredSizeLocateableWidget) *widget.Container {
		return l.Column(0, 3, says, l.Row(0, 4, controls...))
	}
	row := l.Row(6, 16,
		station(p.helm,
			l.Hold("◄ Port", func() { p.heldPort = true }, func() { p.heldPort = false }),
			l.Hold("Stbd ►", func() { p.heldStarboard = true }, func() { p.heldStarboard = false }),
			l.Button("Hold", look.Plain, w.holdHeading),
		),
		station(p.engine,
			l.Button("−", look.Plain, func() { w.faster(-0.2 * knot) }),
			l.Button("+", look.Plain, func() { w.faster(0.2 * knot) }),
		),
		station(p.line,
			l.Button("◄", look.Plain, func() { w.chooseLine(-1) }),
			l.Button("►", look.Plain, func() { w.chooseLine(1) }),
			l.Button("Other way", look.Plain, func() { w.reversed = !w.reversed }),
			l.Button("Steer to it", look.Plain, w.steerToLine),
			p.log,
		),
		station(p.winch,
			l.Button("▲ Haul in", look.Plain, func() { w.payOut(-1) }),
			l.Button("▼ Pay out", look.Plain, func() { w.payOut(1) }),
		),
		station(p.sonar,
			l.Button("−", look.Plain, func() { w.rangeScale(-1) }),
			l.Button("+", look.Plain, func() { w.rangeScale(1) }),
			l.Button("Channel", look.Plain, func() { w.channel = (w.channel + 1) % len(w.falls) }),
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
	p.engine.Label = fmt.Sprintf("Engine: %.1f kn", b.Speed/knot)
	l := w.exercise.Lines[w.line]
	p.line.Label = fmt.Sprintf("Line %s, running %03.0f° grid", l.Name, degrees(l.Track(w.reversed).Bearing()))
	p.winch.Label = fmt.Sprintf("Winch: %.0f m ordered", b.CableOrdered)
	p.sonar.Label = fmt.Sprintf("Sonar: range scale %.0f m", w.view.Recorder.RangeScale)
}

// helmSays is the steering order in words.
func (w *Watch) helmSays() string {
	b := &w.view.Bridge
	switch c := b.Steering; c.Do {
	case sim.SteerLine:
		return "along " + c.Line
	case sim.Turn:
		return "turning for " + c.Line
	case sim.SteerHeading:
		return fmt.Sprintf("heading %03.0f° grid", degrees(c.Value))
	case sim.SteerPoint:
		return "for a point"
	}
	angle := b.Rudder * 180 / math.Pi
	side := "starboard"
	if angle < 0 {
		side = "port"
	}
	return fmt.Sprintf("by hand, %.0f° %s", math.Abs(angle), side)
}
