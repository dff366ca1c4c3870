package app

import (
	"fmt"
	"math"

	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/vessel"
)

// helm steers her: by hand, on a heading, or along the line that is chosen.
type helm struct {
	*post
	line     int // chosen
	reversed bool
	byHand   float64 // rudder held, radians; 0 for none
}

const handRudder = 15 * math.Pi / 180

// chosen is the line that is chosen.
func (h *helm) chosen() *exercise.Line { return &h.lines()[h.line] }

// hold steers by hand while a rudder is held, and holds the heading when it is let
// go.
func (h *helm) hold(port, starboard bool) {
	rudder := 0.0
	switch {
	case port && !starboard:
		rudder = -handRudder
	case starboard && !port:
		rudder = handRudder
	}
	if rudder == h.byHand {
		return
	}
	h.byHand = rudder
	if rudder == 0 {
		h.holdHeading()
		return
	}
	h.give(order.Command{Do: order.Rudder, Value: rudder})
}

func (h *helm) holdHeading() {
	h.give(order.Command{Do: order.SteerHeading, Value: float64(h.view.Reading.GridHeading())})
}

// choose goes through the lines. A line is run from the end nearer to her, where she
// would begin.
func (h *helm) choose(by int) {
	n := len(h.lines())
	h.line = (h.line + by + n) % n
	l, r := h.chosen(), &h.view.Reading
	h.reversed = math.Hypot(l.B.X-r.X, l.B.Y-r.Y) < math.Hypot(l.A.X-r.X, l.A.Y-r.Y)
}

// steerToLine brings her onto the line: along it if she is heading for it, else
// round by the turn of the plan.
func (h *helm) steerToLine() {
	l := h.chosen()
	track := l.Track(h.reversed)
	r := &h.view.Reading
	along, across := track.Offset(r.X, r.Y)
	off := math.Abs(vessel.Wrap(track.Bearing() - float64(r.GridCourse())))
	if off < math.Pi/3 && math.Abs(across) < h.brief.Plan.TurnRadius/2 && along < track.Length()/2 {
		h.give(order.Command{Do: order.SteerLine, Line: l.Name, Reversed: h.reversed})
		return
	}
	h.give(order.Command{Do: order.Turn, Line: l.Name, Reversed: h.reversed, Pattern: h.brief.Plan.Turn})
}

func (h *helm) toggleLog() {
	logging := h.view.Bridge.Logging != ""
	if o := h.pending(order.LogOn, order.LogOff); o != nil {
		logging = o.Do == order.LogOn
	}
	if logging {
		h.give(order.Command{Do: order.LogOff})
		return
	}
	h.give(order.Command{Do: order.LogOn, Line: h.chosen().Name, Reversed: h.reversed})
}

// takeUp chooses the line that is being run.
func (h *helm) takeUp() {
	b := &h.view.Bridge
	name, reversed := b.Logging, b.Reversed
	if name == "" {
		name, reversed = b.Steering.Line, b.Steering.Reversed
	}
	if i := exercise.LineNamed(h.lines(), name); i >= 0 {
		h.line, h.reversed = i, reversed
	}
}

// measured is the line that she is measured against, and the way it is run: the one
// that is logged, not one chosen to be run next.
func (h *helm) measured() (l *exercise.Line, reversed bool) {
	b := &h.view.Bridge
	lines := h.lines()
	if i := exercise.LineNamed(lines, b.Logging); i >= 0 {
		return &lines[i], b.Reversed
	}
	return h.chosen(), h.reversed
}

// says is the steering order in words.
func (h *helm) says() string {
	b := &h.view.Bridge
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
