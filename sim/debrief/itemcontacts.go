package debrief

import (
	"fmt"
	"math"

	"dryline/sim/mark"
	"dryline/sim/survey"
)

// contacts marks what was reported of what lies there.
func (m *marking) contacts() outcome {
	k := m.matched
	o := outcome{
		share: k.f(m.ex.Score.Beta), wanted: "every object reported once, and nothing else",
		got: fmt.Sprintf("%d true, %d false, %d missed", k.found, k.wrong, k.missed),
	}
	if k.twice > 0 {
		o.got += ", " + quantity(k.twice, "duplicate")
	}
	for i := range m.r.Targets {
		if k.of[i] < 0 && !k.excused[i] {
			o.causes = append(o.causes, m.whyMissed(i))
		}
	}
	o.causes = fewOfAKind(o.causes)
	if k.wrong > 0 {
		o.causes = append(o.causes, m.whyFalse())
	}
	if k.found > 0 && k.wrong == 0 && k.missed == 0 {
		o.why = "Every object that the record shows was reported, and nothing else."
		return o
	}
	o.why = firstOf(o.causes, "Nothing on the record was there to be reported.")
	return o
}

// fewOfAKind keeps the first causes of each kind and adds the rest up in the last of them.
func fewOfAKind(causes []Cause) []Cause {
	const most = 3
	count, last := map[string]int{}, map[string]int{}
	var out []Cause
	for _, c := range causes {
		if count[c.Kind]++; count[c.Kind] <= most {
			last[c.Kind] = len(out)
			out = append(out, c)
			continue
		}
		out[last[c.Kind]].Points += c.Points
	}
	for kind, n := range count {
		if n > most {
			out[last[kind]].Says += fmt.Sprintf(" So with %d more.", n-most)
		}
	}
	return out
}

// whyMissed tells an object nobody could see from one nobody marked.
func (m *marking) whyMissed(i int) Cause {
	t := &m.r.Targets[i]
	c := Cause{Points: 1, To: m.s.Now()}
	from, to := m.sighted(i)
	switch at := m.ground.at(t.X, t.Y); {
	case t.BestPings == 0 && at == noSwath:
		c.Kind, c.Says = "not_swept", fmt.Sprintf("No line that was logged reached %s: it lies in ground that was not covered.", t.Name)
	case t.BestPings == 0 && at == outside:
		c.Kind, c.Says = "not_swept", fmt.Sprintf("No line that was logged lit %s.", t.Name)
	case t.BestPings == 0:
		c.Kind, c.Says = "hidden", fmt.Sprintf("No ping lit %s: it lay in a shadow, or its ground did not count (%s). A line past its other side would show it.", t.Name, inWords(at))
	case !t.ThreePings:
		c.Kind, c.From, c.To = "too_few_pings_on_it", from, to
		c.Says = fmt.Sprintf("Too few pings lit %s (%d on %s): no fault of the eyes on the record. Slow down, or run a line where it is not under the fish.", t.Name, t.BestPings, t.BestLine)
	case m.cutOff(i):
		c.Kind, c.From, c.To = m.gainKind(), from, to
		c.Says = fmt.Sprintf("%s passed on %s at %s with the record at full scale, where nothing stands out: take gain off.", t.Name, t.BestLine, m.clock(from))
	case len(t.Candidates) > 0:
		c.Kind, c.From, c.To = "not_taken_up", from, to
		c.Says = fmt.Sprintf("The lookout found %s (%d) on %s at %s and nobody took it up: look through its candidates, and mark or class what is real.", t.Name, t.Candidates[0], t.BestLine, m.clock(from))
	default:
		c.Kind, c.From, c.To = "not_marked", from, to
		c.Says = fmt.Sprintf("%s is on the record of %s at %s, lit by %d pings, and was not marked: look again there for its echo and its shadow.", t.Name, t.BestLine, m.clock(from), t.BestPings)
	}
	return c
}

// sighted is when the best line lit an object.
func (m *marking) sighted(i int) (from, to float64) {
	from, to = math.NaN(), math.NaN()
	if i >= len(m.w.Seen) {
		return 0, m.s.Now()
	}
	line := -1
	for n := range m.lines {
		if m.lines[n].Name == m.r.Targets[i].BestLine {
			line = n
			break
		}
	}
	at := m.times()
	for _, s := range m.w.Seen[i] {
		t, ok := at[s.Number]
		if s.Line != line || !ok {
			continue
		}
		if math.IsNaN(from) {
			from = t
		}
		to = t
	}
	if math.IsNaN(from) {
		return 0, m.s.Now()
	}
	return from, to
}

// times are the times of logged pings by number.
func (m *marking) times() map[uint64]float64 {
	out := map[uint64]float64{}
	for i := range m.pings {
		out[m.pings[i].truth.Number] = m.pings[i].time
	}
	return out
}

// cutOff reports whether most pings that lit an object were cut off by too much gain.
func (m *marking) cutOff(i int) bool {
	if i >= len(m.w.Seen) {
		return false
	}
	at, n, cut := m.at(), 0, 0
	for _, s := range m.w.Seen[i] {
		k, ok := at[s.Number]
		if !ok {
			continue
		}
		n++
		for _, side := range m.pings[k].thirds {
			if side[0] == clipped || side[1] == clipped || side[2] == clipped {
				cut++
				break
			}
		}
	}
	return n > 0 && 2*cut > n
}

// whyFalse says what false marks lie on.
func (m *marking) whyFalse() Cause {
	c := Cause{Kind: "false_mark", Points: float64(m.matched.wrong)}
	on := map[string]int{}
	first := true
	for k := range m.s.Desk.Contacts {
		if m.matched.verdicts[k] != falseMark {
			continue
		}
		d := &m.s.Desk.Contacts[k]
		on[groundAt(m.s.World(), d.X, d.Y).String()]++
		if first {
			c.From, c.To, first = d.Time, d.Time, false
		}
		c.To = max(c.To, d.Time)
	}
	most, ground := 0, ""
	for name, n := range on {
		if n > most || n == most && name < ground {
			most, ground = n, name
		}
	}
	c.Says = fmt.Sprintf("%s where nothing that was to be reported lies", quantity(m.matched.wrong, "contact"))
	if ground == "rock" || ground == "cobble" {
		c.Says += fmt.Sprintf(", %d of them on natural %s: a natural feature named as one costs nothing", most, ground)
	} else {
		c.Says += fmt.Sprintf(", most of them on plain %s: look for an echo with a shadow behind it, on more than one ping and better on two lines", words(ground))
	}
	c.Says += "."
	return c
}

// dimensions marks the lengths and heights of what was found, by the difference to the
// truth over the uncertainty of both: up to 1 they agree, and at 3 there is nothing
// left. An object that was not found, or found and not measured, gives nothing, so that
// a find more never costs any.
func (m *marking) dimensions() outcome {
	o := outcome{wanted: "length and height of each, within their uncertainty", got: "nothing measured"}
	asked, sum, measured, off := 0, 0.0, 0, 0
	worst, name, what := 0.0, "", ""
	for i := range m.r.Targets {
		if m.matched.excused[i] {
			continue
		}
		t := &m.r.Targets[i]
		k := m.matched.of[i]
		judge := func(truth float64, got survey.Sized, which string) {
			asked++
			if k < 0 || !got.Known {
				return
			}
			measured++
			x := got.Metres
			e := math.Abs(mark.En(x, truth, statedUncertainty(got, truth), 0))
			sum += min(max((3-e)/2, 0), 1)
			if e > 1 {
				off++
			}
			if e > max(worst, 1) {
				worst, name, what = e, t.Name, fmt.Sprintf("%s was measured %.1f m %s and is %.1f m", t.Name, x, which, truth)
			}
		}
		var d survey.Dimensions
		if k >= 0 {
			d = m.s.Desk.Dimensions(&m.s.Desk.Contacts[k])
		}
		if t.Kind != "pipeline" {
			judge(t.Length, d.Length, "long")
		}
		judge(t.Height, d.Height, "high")
	}
	if asked == 0 {
		o.share, o.why = 1, "There was nothing to measure."
		return o
	}
	o.share = sum / float64(asked)
	if measured > 0 {
		o.got = fmt.Sprintf("%d of %d measured, %d of them off", measured, asked, off)
	}
	if not := asked - measured; not > 0 {
		o.causes = append(o.causes, Cause{Kind: "not_measured", To: m.s.Now(), Points: float64(not), Says: fmt.Sprintf(
			"%d of %d lengths and heights were not measured: measure the echo end to end, and the shadow for the height.", not, asked)})
	}
	if name != "" {
		o.causes = append(o.causes, Cause{Kind: "measured_wrong", To: m.s.Now(), Points: float64(off), Says: what +
			": measure across the whole echo, and the shadow to its tip, on the pass where the object lies broadside."})
	}
	o.why = firstOf(o.causes, "What was measured agrees with what is there.")
	return o
}

// statedUncertainty is the expanded uncertainty (k = 2) that a size is marked against:
// the desk's own, but no more than half a metre and a fifth of the size together, our own
// choice, so that nobody gains by claiming little; and no less than a tenth of a metre.
func statedUncertainty(got survey.Sized, truth float64) float64 {
	return min(max(2*got.Sigma, 0.1), math.Hypot(0.5, 0.2*truth))
}
