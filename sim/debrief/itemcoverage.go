package debrief

import (
	"fmt"
	"math"
	"slices"

	"dryline/sim"
	"dryline/sim/survey"
)

// coverage marks the ground looked at in a way that counts.
func (m *marking) coverage() outcome {
	c, wanted := &m.r.Coverage, m.r.Wanted.Coverage
	got := m.ground.share()
	o := outcome{
		share: toward(got, wanted), wanted: fmt.Sprintf("at least %g %% that counts", wanted),
		got: fmt.Sprintf("%s %% counts; the mosaic shows %s %% once, %s %% twice", shareOf(got), shareOf(c.Once), shareOf(c.Twice)),
	}
	switch {
	case got >= 100:
		o.why = "All of the ground was looked at in a way that counts."
	case got >= wanted && c.HolidayCount == 0:
		o.why = "Covered as asked; no gap that is left could hide a thing of 1 m."
	case got >= wanted:
		o.why = fmt.Sprintf("Covered as asked, but for %s near %s: one short line over it closes it.", largest(c), c.Holidays[0].Near)
	default:
		o.causes = m.holes()
		o.why = firstOf(o.causes, "Only thin gaps are left, none of which could hide a thing of 1 m: steer straighter.")
	}
	return o
}

// firstOf returns what the first cause says, or else something else.
func firstOf(causes []Cause, other string) string {
	best, says := 0.0, other
	for _, c := range causes {
		if c.Points > best {
			best, says = c.Points, c.Says
		}
	}
	return says
}

// holes are the causes of ground that does not count, by its area.
func (m *marking) holes() []Cause {
	cells := m.ground.shares()
	var out []Cause
	add := func(k string, r Reason, says func(s span) string) {
		if cells[r] == 0 {
			return
		}
		list := spans(m.lines, func(l *logged, i int) bool { return m.pingIs(l, i, r) })
		at := span{}
		if len(list) > 0 {
			at = list[0]
		}
		out = append(out, Cause{Kind: k, From: at.from, To: at.to, Points: float64(cells[r]), Says: says(at)})
	}
	for _, c := range m.unswept() {
		c.Points *= float64(cells[noSwath])
		out = append(out, c)
	}
	if n := cells[untrusted]; n > 0 {
		list := spans(m.lines, func(l *logged, i int) bool { return m.pingIs(l, i, untrusted) })
		if len(list) > 0 {
			c := m.whyUntrusted(list[0])
			c.Points = float64(n)
			out = append(out, c)
		}
	}
	add("fish_silent", silent, func(s span) string {
		return "The fish had touched something and sent nothing " + m.during(s) + ": keep it higher, and run the stretch again."
	})
	add("turn", inTurn, func(s span) string {
		return "The log was on while the fish went round " + m.during(s) + ": stop the log at the end of the line and start it when the fish has settled on the next."
	})
	add("too_low", outOfReach, func(s span) string { return m.lowSays(s) })
	add("noise", inNoise, func(s span) string {
		return "Far ground sank into the noise " + m.during(s) + ": the channel does not carry so far; set a shorter range scale with closer lines, or survey with the lower channel."
	})
	add(m.gainKind(), clipped, func(s span) string {
		return "The record was at full scale " + m.during(s) + " and shows nothing of what is brighter: " + m.gainSays(true)
	})
	add(m.gainKind(), faint, func(s span) string {
		return "The record was down in the recorder's steps " + m.during(s) + ": " + m.gainSays(false)
	})
	add("channel_fault", ailing, func(s span) string {
		return "A channel of the fish was dead, weak or swapped " + m.during(s) + ": what it recorded is not to be handed over. Rub both sides before the fish is streamed, look whether both sides of the record stand alike, and have the plugs seen to."
	})
	add("too_fast", sparse, func(s span) string { return m.fastSays(s) })
	add(m.bottomKind(), offBottom, func(s span) string { return m.bottomSays(s) })
	add("nadir", underFish, func(s span) string {
		return "The strip under the fish was seen by no neighbour: space the lines at the most range less the gap, or run a second set between them."
	})
	return out
}

// pingIs reports whether a ping left ground out for a reason.
func (m *marking) pingIs(l *logged, i int, r Reason) bool {
	n, ok := m.at()[l.Pings[i].Number]
	if !ok {
		return false
	}
	j := &m.pings[n]
	switch r {
	case outOfReach, inNoise:
		return j.whole == seen && j.beyond == r && j.reach < 0.98*j.ends
	case clipped, faint, ailing:
		for _, side := range j.thirds {
			for _, k := range side {
				if j.whole == seen && k == r {
					return true
				}
			}
		}
		return false
	case underFish:
		return j.gap > 0
	}
	return j.whole == r
}

// at finds a judged ping by its number.
func (m *marking) at() map[uint64]int {
	if m.index == nil {
		m.index = make(map[uint64]int, len(m.pings))
		for i := range m.pings {
			m.index[m.pings[i].truth.Number] = i
		}
	}
	return m.index
}

// unswept shares out the ground that nothing logged reached: lines not run, run in
// part, or too far apart.
func (m *marking) unswept() []Cause {
	out := m.notLogged()
	c := &m.r.Coverage
	if c.Spacing != nil && c.EffectiveRange != nil && *c.Spacing > 2**c.EffectiveRange {
		out = append(out, Cause{Kind: "spacing", Points: 0.5, Says: fmt.Sprintf(
			"Lines %.0f m apart with %.0f m of useful range a side leave a gap between them: run lines between, or a longer range scale with the fish higher.", *c.Spacing, *c.EffectiveRange)})
	}
	if list := m.beside(); len(list) > 0 && len(out) == 0 {
		out = append(out, Cause{Kind: "off_line", From: list[0].from, To: list[0].to, Points: 0.5, Says: fmt.Sprintf(
			"The fish ran beside the line %s and left ground between it and its neighbour: steer the fish along the line, with the vessel up-stream of it.", m.during(list[0]))})
	}
	if len(out) == 0 {
		says := "Thin strips are left between lines and at their ends: steer straighter, and hold on past the ends."
		if i := slices.IndexFunc(c.Holidays, func(h Holiday) bool { return h.Reason == noSwath.String() }); i >= 0 {
			says = fmt.Sprintf("A hole of %.0f m² is left near %s that no swath reached: run a line over it.", c.Holidays[i].SquareMetres, c.Holidays[i].Near)
		}
		out = append(out, Cause{Kind: "gap", Points: 1, Says: says})
	}
	sum := 0.0
	for _, c := range out {
		sum += c.Points
	}
	for i := range out {
		out[i].Points /= max(sum, 1e-9)
	}
	return out
}

// lowSays explains a fish too low for the range scale.
func (m *marking) lowSays(s span) string {
	l := &m.lines[s.of]
	if len(l.truth) == 0 || l.truth[s.first] == nil {
		return "The fish flew too low for the range scale."
	}
	h := l.truth[s.first].Altitude
	for i := s.first; i < len(l.Pings) && l.Pings[i].Fix.Time <= s.to; i++ {
		if t := l.truth[i]; t != nil {
			h = min(h, t.Altitude)
		}
	}
	good := survey.UsableRange(l.RangeScale, h)
	says := fmt.Sprintf("Down at %.1f m over the floor %s the swath is good for %.0f m of its %.0f: ", h, m.during(s), good, l.RangeScale)
	if a := m.advised(s.from, s.to, "fish_low", "fish_close"); a != "" {
		return says + "bring the fish up, or set a shorter range scale. The coach's figures then: “" + a + "”"
	}
	return says + "bring the fish up to 8 % of the range scale or more, or set a shorter one."
}

// fastSays explains too few pings to a metre.
func (m *marking) fastSays(s span) string {
	l := &m.lines[s.of]
	d := l.perMetre
	if s.first >= len(d) || math.IsInf(d[s.first], 0) {
		return "Too few pings to a metre: slow down, or set a shorter range scale with closer lines."
	}
	v, wanted := l.Pings[min(s.first+s.pings/2, len(l.Pings)-1)].Fix.Speed, m.ex.Score.PingsPerMetre
	got := d[min(s.first+s.pings/2, len(d)-1)]
	if planned := m.ex.Sonar.RangeScale; l.RangeScale > 1.05*planned && v <= 1.1*m.ex.Plan.Speed {
		return fmt.Sprintf("The range scale of %.0f m pings too seldom %s: %.1f pings a metre at %.1f m/s, and %g are wanted. Set %.0f m or slow down to %.1f m/s.",
			l.RangeScale, m.during(s), got, v, wanted, planned, v*got/wanted)
	}
	return fmt.Sprintf("%.1f m/s %s is too fast for this range scale: %.1f pings a metre, and %g are wanted. Slow down to %.1f m/s, or set a shorter range scale with closer lines.",
		v, m.during(s), got, wanted, v*got/wanted)
}

// bottomKind tells a bottom track that too much gain misled from one that lost the
// bottom for another reason.
func (m *marking) bottomKind() string {
	if m.fullGain() {
		return "gain"
	}
	return "bottom_track"
}

// fullGain reports whether most pings off the bottom were cut off too.
func (m *marking) fullGain() bool {
	n, cut := 0, 0
	for k := range m.lines {
		l := &m.lines[k]
		for i, t := range l.truth {
			if t == nil || math.Abs(l.Pings[i].Height-t.Altitude) <= believedMetres {
				continue
			}
			n++
			if clippedAt(l, i) {
				cut++
			}
		}
	}
	return n > 0 && 2*cut > n
}

// bottomSays explains a bottom track that is not on the bottom.
func (m *marking) bottomSays(s span) string {
	if m.fullGain() {
		return "The gain was so high that noise in the water passed for the bottom " + m.during(s) + ": take gain off until the water column is dark, and mend the bottom track of that stretch."
	}
	return "The bottom track was not on the bottom " + m.during(s) + ", so every range there is laid wrong: look what it followed (fish, wash, weed, a soft top layer), set it right by hand or run the stretch again."
}

// clippedAt reports a ping of which some third is cut off.
func clippedAt(l *logged, i int) bool {
	for _, side := range l.truth[i].Record {
		for _, third := range side {
			if third == sim.CutOff {
				return true
			}
		}
	}
	return false
}

func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
