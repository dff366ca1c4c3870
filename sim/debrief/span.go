package debrief

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"dryline/sim/coach"
)

// span is a stretch of a logged line in which something was so.
type span struct {
	line     string
	from, to float64 // seconds
	pings    int
	first    int // index of its first ping in the line
	of       int // index of the line
}

// spans are the stretches of the logged lines in which something is so of pings, the
// longest first. Gaps of a few pings do not part them.
func spans(lines []logged, so func(l *logged, i int) bool) []span {
	const bridge = 15 // pings
	var out []span
	for n := range lines {
		l := &lines[n]
		var open *span
		last := 0
		for i := range l.Pings {
			if l.truth[i] == nil || !so(l, i) {
				continue
			}
			t := l.Pings[i].Fix.Time
			if open == nil || i-last > bridge {
				out = append(out, span{line: l.Name, from: t, to: t, first: i, of: n})
				open = &out[len(out)-1]
			}
			open.to, last = t, i
			open.pings++
		}
	}
	slices.SortStableFunc(out, func(a, b span) int { return cmp.Compare(b.pings, a.pings) })
	return out
}

// advised returns what the coach said of a cause within a time, whether or not anybody was
// shown it; empty if it said nothing.
func (m *marking) advised(from, to float64, ids ...string) string {
	for i, e := range m.w.Advice {
		if e.Over || e.Time > to || !slices.Contains(ids, e.Hint.ID) {
			continue
		}
		over := slices.IndexFunc(m.w.Advice[i:], func(o coach.Event) bool { return o.Over && o.Hint.ID == e.Hint.ID })
		if over < 0 || m.w.Advice[i+over].Time >= from {
			return e.Hint.Text
		}
	}
	return ""
}

// clock writes a time of the session as the clock on board showed it.
func (m *marking) clock(seconds float64) string {
	return m.ex.Start.Add(time.Duration(seconds * float64(time.Second))).UTC().Format("15:04:05")
}

// during says when a span was.
func (m *marking) during(s span) string {
	if s.to-s.from < 5 {
		return fmt.Sprintf("on %s at %s", s.line, m.clock(s.from))
	}
	return fmt.Sprintf("on %s from %s to %s", s.line, m.clock(s.from), m.clock(s.to))
}
