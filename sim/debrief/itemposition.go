package debrief

import (
	"fmt"
	"math"
	"strings"

	"dryline/sim/survey"
)

// position marks where the desk puts the ground.
func (m *marking) position() outcome {
	limit := m.statedRadius()
	o := outcome{wanted: fmt.Sprintf("95 %% within %g m", limit), got: "nothing", why: nothingLogged}
	g := m.r.Position.GroundHalf
	if g == nil {
		if len(m.pings) > 0 {
			c := m.whyUntrusted(span{line: m.lines[m.pings[0].line].Name, from: m.pings[0].time, to: m.pings[len(m.pings)-1].time})
			c.Points = 1
			o.why, o.causes = c.Says, []Cause{c}
		}
		return o
	}
	o.got = fmt.Sprintf("95 %% within %.1f m", g.Distance.P95)
	o.share = toward(limit*m.tol.limits, g.Distance.P95)
	if g.Distance.P95 <= limit/5 { // not worth a cause

		o.why = "The desk puts the ground where it is."
		return o
	}
	o.causes = m.misplaced()
	o.why = firstOf(o.causes, fmt.Sprintf("Fish within %.1f m, ground within %.1f m: the fix, the layback and the heading of the swath all add their part.",
		m.r.Position.Fish.Distance.P95, g.Distance.P95))
	return o
}

// misplaced takes the error apart into its causes, by the square of what each comes to
// at half range: what the desk was told against what is true.
func (m *marking) misplaced() []Cause {
	var out []Cause
	end := m.s.Now()
	desk := m.settings()
	add := func(kind string, metres float64, says string) {
		if math.Abs(metres) >= 0.5 {
			out = append(out, Cause{Kind: kind, To: end, Points: metres * metres, Says: says})
		}
	}
	fish := m.r.Position.Fish
	astern := -fish.Along.Mean // of where it truly was

	offset := desk.AntennaToTow - (m.ex.Vessel.Antenna.Forward - m.ex.Vessel.Sheave.Forward)
	if math.Abs(offset) > math.Abs(astern)+1 {
		offset = 0 // a false factor makes up for it: there is no telling from where things lie
	}
	where := func(v float64) string {
		if v > 0 {
			return "too far astern"
		}
		return "too far ahead"
	}
	add("offset", offset, fmt.Sprintf("The desk has the sheave %.1f m astern of the antenna and it is %.1f m: everything lies %.1f m %s. Measure the offset again, bow to stern.",
		desk.AntennaToTow, desk.AntennaToTow-offset, math.Abs(offset), where(offset)))
	if rest := astern - offset; math.Abs(rest) > 1 {
		says := fmt.Sprintf("The desk has the fish %.1f m %s for its cable: check the catenary factor and the cable counter against two passes over one object in opposite directions.", math.Abs(rest), where(rest))
		if f, ok := m.rightFactor(rest); ok {
			says = fmt.Sprintf("The desk has the fish %.1f m %s with a catenary factor of %.3f; about %.3f would have been right. Check it with two passes over one object in opposite directions.",
				math.Abs(rest), where(rest), desk.CatenaryFactor, f)
		}
		add("factor", rest, says)
	}
	if side := fish.Across.RMS; side > 1 {
		add("stream", side, fmt.Sprintf("The fish swam %.1f m (rms) to the side of where the desk had it: a cross stream or a swing of the vessel. Run with the stream, take a longer run-in, or place the fish by a beacon.", side))
	}
	if askew := m.r.askewBy(); askew > 1 {
		add("crab", askew, fmt.Sprintf("Crab: the fish swam %.0f degrees askew to the bearing its swath was laid square to, which throws the far range %.0f m along the track, ahead on one side and astern on the other. Lay the swath by the fish's compass, or run with the stream.",
			m.r.Position.Askew.RMS, 2*askew))
	}
	half := m.halfReach()
	if c := m.s.Engine().SoundSpeed(); math.Abs(desk.SoundSpeed/c-1) > 0.002 {
		add("sound_speed", half*(desk.SoundSpeed/c-1), fmt.Sprintf("The desk was told %.0f m/s of sound speed and it is %.0f m/s, which stretches every range by %.1f %%: take a cast and enter it.",
			desk.SoundSpeed, c, 100*(desk.SoundSpeed/c-1)))
	}
	if by, s := m.bottomError(half); by > 1 {
		add(m.bottomKind(), by, m.bottomSays(s))
	}
	return out
}

// settings are the desk's as they stand: those of the watch, or those it was worked up
// with last.
func (m *marking) settings() survey.Settings {
	if w := m.s.Desk.Worked; w != nil {
		return m.s.Desk.Reviewed(&w.Review, math.Inf(1))
	}
	return m.s.Desk.Settings
}

// rightFactor is the catenary factor that would have put the fish where it was, for a
// layback that is too long by so many metres.
func (m *marking) rightFactor(tooLong float64) (float64, bool) {
	var factor sample
	desk := m.settings()
	for n := range m.lines {
		l := &m.lines[n]
		for i := range l.Pings {
			f := &l.Pings[i].Fix
			if f.CableOut > 0 && f.Layback > 0 && f.Fault == "" {
				factor.add(math.Hypot(f.Layback-desk.AntennaToTow-tooLong, f.Depth+desk.SheaveHeight) / f.CableOut)
			}
		}
	}
	mean := factor.mean()
	return mean, mean > 0 && mean < 2
}

// halfReach is half of the swath's ground range, metres.
func (m *marking) halfReach() float64 {
	var reach sample
	for i := range m.pings {
		reach.add(m.pings[i].ends)
	}
	if len(reach.values) == 0 {
		return 0
	}
	return reach.mean() / 2
}

// bottomError is how far the bottom track's error throws the ground at half range, rms,
// and where it was off longest.
func (m *marking) bottomError(half float64) (metres float64, worst span) {
	var thrown sample
	for n := range m.lines {
		l := &m.lines[n]
		for i, t := range l.truth {
			if t != nil && half > 0 {
				// The ground range of a slant range r is sqrt(r^2 - h^2), so it gives by h dh / g.
				thrown.add(t.Altitude * (l.Pings[i].Height - t.Altitude) / half)
			}
		}
	}
	list := spans(m.lines, func(l *logged, i int) bool { return math.Abs(l.Pings[i].Height-l.truth[i].Altitude) > believedMetres })
	if len(thrown.values) == 0 || len(list) == 0 {
		return 0, span{}
	}
	return thrown.rms(), list[0]
}

// whyUntrusted is why fixes of a stretch were not to be trusted, by what the desk said of
// the first of them.
func (m *marking) whyUntrusted(s span) Cause {
	said := ""
	for n := range m.lines {
		for _, p := range m.lines[n].Pings {
			if f := p.Fix.Fault; f != "" && said == "" && p.Fix.Time >= s.from && p.Fix.Time <= s.to {
				said = f
			}
		}
	}
	c := Cause{Kind: "fix", From: s.from, To: s.to, Says: fmt.Sprintf(
		"The fix was not to be trusted %s (%s), and nothing was painted: watch the quality of the fix and what the desk places the fish by, and run the stretch again.", m.during(s), said)}
	if strings.HasPrefix(said, "impossible layback") {
		c.Kind = "factor"
		c.Says = fmt.Sprintf("The desk trusted no fix %s and painted nothing (%s): check the catenary factor, the cable counter and the height of the sheave. The factor is the chord over the cable out, near 1 on little cable.",
			m.during(s), said)
	}
	return c
}

// statedRadius is the survey's stated uncertainty of position, 95 %, metres.
func (m *marking) statedRadius() float64 {
	if r := m.ex.Score.ContactWithin; r > 0 {
		return r
	}
	return positionLimit
}
