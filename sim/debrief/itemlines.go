package debrief

import (
	"fmt"
	"math"

	"dryline/sim/order"
)

// logged marks how much of the planned lines was logged.
func (m *marking) logged() outcome {
	names := plannedLines(m.ex)
	share := planShare(m.ex, m.lines)
	o := outcome{
		share: share, wanted: "every planned line, end to end",
		got: shareOf(100*share) + " % of " + quantity(len(names), "line"),
	}
	switch o.causes = m.notLogged(); {
	case share >= 1:
		o.why = "Every planned line was logged from end to end."
	case len(o.causes) == 0:
		o.why = "Every planned line was logged but for a metre or two."
	default:
		o.why = firstOf(o.causes, "")
	}
	return o
}

// enough is the shortfall, in percent, that is not worth advice.
const enough = 0.5

// notLogged are the lines, or parts of lines, that are on no log; their points are
// shares of the plan.
func (m *marking) notLogged() []Cause {
	var out []Cause
	names := plannedLines(m.ex)
	var not []string
	for _, name := range names {
		done := doneShare(m.ex, m.lines, name)
		if done == 0 {
			if from, to, log, ok := m.ranUnlogged(name); ok {
				c := Cause{Kind: "log_off", From: from, To: to, Points: 1, Says: fmt.Sprintf(
					"She ran along %s from %s to %s with the log off: nothing of it was kept. Open the log before the fish crosses the start.", name, m.clock(from), m.clock(to))}
				if log != "" {
					c.Kind, c.Says = "turn", fmt.Sprintf("She ran along %s from %s to %s with the log of %s still on, through the turn: close the log at the end of each line and open the next one's.",
						name, m.clock(from), m.clock(to), log)
				}
				out = append(out, c)
				continue
			}
			not = append(not, name)
			continue
		}
		if 100*(1-done) < enough {
			continue
		}
		out = append(out, m.cut(name, 1-done))
	}
	if len(m.lines) == 0 && len(out) == 0 {
		return []Cause{{Kind: "nothing_logged", To: m.s.Now(), Points: 1, Says: nothingLogged}}
	}
	if len(not) > 0 {
		says := fmt.Sprintf("%s not logged at all: run %s to close the gap.", isAre(not), itThem(not))
		if m.s.Now() >= m.ex.Plan.TimeLimit {
			says = fmt.Sprintf("%s not logged before the time ran out: plan the turns, and do not wait between lines.", isAre(not))
		}
		out = append(out, Cause{Kind: "line_not_run", From: m.s.Now(), To: m.s.Now(), Points: float64(len(not)), Says: says})
	}
	for i := range out {
		out[i].Points /= float64(len(names))
	}
	return out
}

// ranUnlogged reports whether she ran along half or more of a line with the log off, or
// with that of another line on, and from when to when.
func (m *marking) ranUnlogged(name string) (from, to float64, log string, ok bool) {
	const (
		beside  = 30.0        // metres off it at most
		aligned = math.Pi / 6 // of its direction, either way
	)
	for _, l := range m.ex.All() {
		if l.Name != name {
			continue
		}
		t := l.Track(false)
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range m.s.Desk.Track {
			f := &p.Fix
			along, off := t.Offset(f.VesselX, f.VesselY)
			turn := math.Remainder(f.Course-t.Bearing(), math.Pi)
			if p.Line == name || math.Abs(off) > beside || math.Abs(turn) > aligned || along < 0 || along > t.Length() {
				continue
			}
			if math.IsInf(low, 1) {
				from = f.Time
			}
			low, high, to, log = min(low, along), max(high, along), f.Time, p.Line
		}
		return from, to, log, high-low > t.Length()/2
	}
	return 0, 0, "", false
}

// cut tells how a line that was logged in part lost the rest.
func (m *marking) cut(name string, missing float64) Cause {
	late, early := math.Inf(1), math.Inf(1)
	var opened, closed float64
	length := 0.0
	for i := range m.lines {
		l := &m.lines[i]
		if l.Name != name || len(l.Pings) == 0 {
			continue
		}
		length = l.Track.Length()
		if a := l.Pings[0].Along; a < late {
			late, opened = a, l.Pings[0].Fix.Time
		}
		if b := length - l.Pings[len(l.Pings)-1].Along; b < early {
			early, closed = b, l.Pings[len(l.Pings)-1].Fix.Time
		}
	}
	if late >= early {
		return Cause{Kind: "log_late", From: opened - 1, To: opened, Points: missing, Says: fmt.Sprintf(
			"The log of %s was opened with the fish %.0f m past its start, at %s: open it before the fish, not the vessel, crosses the start.", name, max(late, 0), m.clock(opened))}
	}
	return Cause{Kind: "log_early", From: closed, To: closed + 1, Points: missing, Says: fmt.Sprintf(
		"The log of %s was closed with the fish %.0f m short of its end, at %s: hold on until the fish, not the vessel, is past it.", name, max(early, 0), m.clock(closed))}
}

// offLine marks the fish on its line: it is what looks. The vessel may stand off for
// the stream (IHO C-13, chapter 4, 2.3.9.6).
func (m *marking) offLine() outcome {
	limit := m.ex.Score.OffLine
	o := outcome{wanted: fmt.Sprintf("fish within %g m", limit), got: "nothing", why: nothingLogged}
	var off sample
	for n := range m.lines {
		for i := range m.lines[n].truth {
			if a, ok := m.lines[n].fishOff(i); ok {
				off.add(a)
			}
		}
	}
	if len(off.values) == 0 {
		return o
	}
	limit *= m.tol.limits
	share := off.share(func(v float64) bool { return math.Abs(v) <= limit })
	o.share = share / 100
	o.got = fmt.Sprintf("%s %% of pings, %.1f m at worst", shareOf(share), off.worst())
	list := m.beside()
	for k, s := range list {
		if k == 3 {
			break
		}
		o.causes = append(o.causes, m.whyBeside(s))
	}
	if share >= 100-enough {
		o.why = fmt.Sprintf("The fish kept to its lines; its worst was %.1f m off.", off.worst())
	} else {
		o.why = firstOf(o.causes, fmt.Sprintf("The fish was up to %.1f m beside its line.", off.worst()))
	}
	return o
}

// fishOff is how far the fish truly was off its line at a ping, positive to its right.
func (l *logged) fishOff(i int) (float64, bool) {
	t := l.truth[i]
	if t == nil {
		return 0, false
	}
	_, across := l.Track.Offset(t.X, t.Y)
	return across, true
}

// beside are the stretches in which the fish was further off its line than wanted.
func (m *marking) beside() []span {
	limit := m.ex.Score.OffLine * m.tol.limits
	if !(limit > 0) {
		return nil
	}
	return spans(m.lines, func(l *logged, i int) bool {
		off, ok := l.fishOff(i)
		return ok && math.Abs(off) > limit
	})
}

// whyBeside tells a stream from a run-in too short from steering.
func (m *marking) whyBeside(s span) Cause {
	l := &m.lines[s.of]
	fish, vessel := 0.0, 0.0
	for i := s.first; i < len(l.Pings) && l.Pings[i].Fix.Time <= s.to; i++ {
		if off, ok := l.fishOff(i); ok && math.Abs(off) > math.Abs(fish) {
			fish, vessel = off, l.Pings[i].Off
		}
	}
	c := Cause{From: s.from, To: s.to, Points: float64(s.pings)}
	limit, side := m.ex.Score.OffLine, "left"
	if fish > 0 {
		side = "right"
	}
	at := fmt.Sprintf("The fish was up to %.1f m to the %s of the line %s", math.Abs(fish), side, m.during(s))
	length := max(l.Track.Length(), 1)
	switch {
	case l.Pings[s.first].Along < 0.15*length && s.to < l.End-1 && l.Pings[s.first].Fix.Time-l.Start < 5:
		c.Kind, c.Says = "run_in", at+", from its start on: take a longer run-in, so that the fish has settled astern before the log is opened."
	case math.Abs(vessel) <= limit:
		c.Kind, c.Says = "stream", fmt.Sprintf("%s while the vessel was %.1f m off it: the stream carried the fish. Let the vessel stand %.0f m to the %s, so that the fish is on the line.",
			at, math.Abs(vessel), math.Abs(fish-vessel), other(side))
	case m.byHand(s.from):
		c.Kind, c.Says = "hand_steering", at+", steered by hand: small corrections early, or let the autopilot take her to the line."
	default:
		c.Kind, c.Says = "steering", at+": allow for wind and stream, and steer small."
	}
	return c
}

func other(side string) string {
	if side == "left" {
		return "right"
	}
	return "left"
}

// byHand reports whether she was steered by hand at a time, and not along a line.
func (m *marking) byHand(t float64) bool {
	hand := true
	for _, c := range m.s.Commands {
		if float64(c.Tick)/ticksPerSecond > t {
			break
		}
		switch c.Do {
		case order.SteerLine:
			hand = false
		case order.SteerHeading, order.Rudder, order.Turn, order.SteerPoint:
			hand = true
		}
	}
	return hand
}

const ticksPerSecond = 10

// density marks the pings to a metre.
func (m *marking) density() outcome {
	wanted := m.ex.Score.PingsPerMetre
	o := outcome{wanted: fmt.Sprintf("at least %g on every line", wanted), got: "nothing", why: nothingLogged}
	sum, way, least := 0.0, 0.0, math.Inf(1)
	for _, l := range m.r.Lines {
		if l.PingsPerMetre != nil {
			sum += l.Run * toward(*l.PingsPerMetre, wanted)
			way += l.Run
			least = min(least, *l.PingsPerMetre)
		}
	}
	if way == 0 {
		return o
	}
	o.share, o.got = sum/way, fmt.Sprintf("%.2f on the worst line", least)
	if least >= wanted {
		o.why = "Slow enough for the range scale on every line."
		return o
	}
	list := spans(m.lines, func(l *logged, i int) bool { return l.perMetre[i] < EnoughShare*wanted })
	for k, s := range list {
		if k == 3 {
			break
		}
		o.causes = append(o.causes, Cause{Kind: m.fastKind(s), From: s.from, To: s.to, Points: float64(s.pings), Says: m.fastSays(s)})
	}
	o.why = firstOf(o.causes, "A little too fast for the range scale on the worst line.")
	return o
}

// fastKind tells a speed too high from a range scale too long.
func (m *marking) fastKind(s span) string {
	l := &m.lines[s.of]
	if l.RangeScale > 1.05*m.ex.Sonar.RangeScale && l.Pings[s.first].Fix.Speed <= 1.1*m.ex.Plan.Speed {
		return "range_too_long"
	}
	return "too_fast"
}
