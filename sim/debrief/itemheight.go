package debrief

import (
	"fmt"
	"math"
)

// height marks the height of the fish in its band, with a dead band at the edges.
func (m *marking) height() outcome {
	low, high := band(m.ex)
	dead := 100 * m.tol.height
	o := outcome{wanted: fmt.Sprintf("%g to %g %% of range scale", low, high), got: "nothing", why: nothingLogged}
	var share sample
	for n := range m.lines {
		for i := range m.lines[n].truth {
			if v, ok := m.lines[n].heightShare(i); ok {
				share.add(v)
			}
		}
	}
	if len(share.values) == 0 {
		return o
	}
	in := share.share(func(v float64) bool { return v >= low-dead && v <= high+dead })
	o.share, o.got = in/100, fmt.Sprintf("%s %% of pings, %s to %s %%", shareOf(in), shareOf(share.min), shareOf(share.max))
	tooHigh := spans(m.lines, func(l *logged, i int) bool { v, ok := l.heightShare(i); return ok && v > high+dead })
	tooLow := spans(m.lines, func(l *logged, i int) bool { v, ok := l.heightShare(i); return ok && v < low-dead })
	for k, s := range tooHigh {
		if k < 2 {
			o.causes = append(o.causes, m.highCause(s, high))
		}
	}
	for k, s := range tooLow {
		if k < 2 {
			o.causes = append(o.causes, m.lowCause(s, low))
		}
	}
	switch {
	case in >= 100:
		o.why = "The fish was flown at the height wanted on every line."
	case in > 100-enough:
		o.why = "The fish was flown at the height wanted but for a few pings."
	default:
		o.why = firstOf(o.causes, "")
	}
	return o
}

// heightShare is the true height at a ping in percent of the range scale.
func (l *logged) heightShare(i int) (float64, bool) {
	t := l.truth[i]
	if t == nil || !(l.RangeScale > 0) {
		return 0, false
	}
	return 100 * t.Altitude / l.RangeScale, true
}

// extreme is the height furthest out within a span, percent of the range scale.
func (m *marking) extreme(s span, more func(a, b float64) bool) float64 {
	l := &m.lines[s.of]
	best := math.NaN()
	for i := s.first; i < len(l.Pings) && l.Pings[i].Fix.Time <= s.to; i++ {
		if v, ok := l.heightShare(i); ok && (math.IsNaN(best) || more(v, best)) {
			best = v
		}
	}
	return best
}

func (m *marking) highCause(s span, high float64) Cause {
	l := &m.lines[s.of]
	top := m.extreme(s, func(a, b float64) bool { return a > b })
	says := fmt.Sprintf("The fish was up to %.1f %% of the range scale %s, above %g %%: ", top, m.during(s), high)
	kind := "too_high"
	v := l.Pings[min(s.first+s.pings/2, len(l.Pings)-1)].Fix.Speed
	if m.ex.Plan.Speed > 0 && v > 1.15*m.ex.Plan.Speed {
		kind = "too_fast"
		says += fmt.Sprintf("%.1f m/s lifted it. Slow down, or pay out cable.", v)
	} else {
		says += "pay out cable or slow down."
	}
	return Cause{Kind: kind, From: s.from, To: s.to, Points: float64(s.pings), Says: says + m.figures(s, "fish_high")}
}

func (m *marking) lowCause(s span, low float64) Cause {
	l := &m.lines[s.of]
	least := m.extreme(s, func(a, b float64) bool { return a < b })
	says := fmt.Sprintf("The fish was down to %.1f %% of the range scale %s, below %g %%: ", least, m.during(s), low)
	kind := "too_low"
	if planned := m.ex.Sonar.RangeScale; l.RangeScale > 1.05*planned {
		kind = "range_too_long"
		says += fmt.Sprintf("%.0f m is too long a range scale for that height. Set %.0f m, or haul in.", l.RangeScale, planned)
	} else {
		says += "haul in or speed up."
	}
	return Cause{Kind: kind, From: s.from, To: s.to, Points: float64(s.pings), Says: says + m.figures(s, "fish_low", "fish_close")}
}

// figures adds what the coach worked out then.
func (m *marking) figures(s span, ids ...string) string {
	if a := m.advised(s.from, s.to, ids...); a != "" {
		return " By the tow table then: “" + a + "”"
	}
	return ""
}
