package debrief

import (
	"fmt"
	"math"
	"strings"

	"dryline/sim/survey"
)

// The sentences below tell the trainee what to do differently. Each follows
// from a figure in the report and names the line it is about.

// enough is the shortfall, in percent, that is not worth advice.
const enough = 0.5

func whyCoverage(r *Report, wanted float64) string {
	c := &r.Coverage
	if c.Once >= wanted {
		switch {
		case c.Once >= 100:
			return "The mosaic shows the area without a gap."
		case c.HolidayCount == 0:
			return "Covered as asked; no gap that is left could hide a thing of 1 m."
		}
		return fmt.Sprintf("Covered as asked, but for %s near %s: one short line over it closes it.", largest(c), c.Holidays[0].Near)
	}
	if len(r.Lines) == 0 {
		return nothingLogged
	}
	if len(r.LinesNotRun) > 0 {
		return fmt.Sprintf("%s not logged: run %s to close the gap.", isAre(r.LinesNotRun), itThem(r.LinesNotRun))
	}
	if l := lowest(r); l != nil && l.Altitude.Mean < noaaLow {
		return fmt.Sprintf("Fish at %.0f %% of range scale on %s: below %g %% the swath is good for only %g times the height; haul in or speed up.",
			l.Altitude.Mean, l.Name, noaaLow, 100/noaaLow)
	}
	if c.Spacing != nil && c.EffectiveRange != nil && *c.Spacing > 2**c.EffectiveRange {
		return fmt.Sprintf("Lines %.0f m apart with %.0f m of useful range a side leave a gap between them: run lines between.",
			*c.Spacing, *c.EffectiveRange)
	}
	if c.HolidayCount > 0 {
		return fmt.Sprintf("The mosaic has %s near %s: run a line over it.", largest(c), c.Holidays[0].Near)
	}
	return "Only thin gaps are left, none of which could hide a thing of 1 m: steer straighter."
}

func whyLines(r *Report, short string, worst float64) string {
	switch {
	case len(r.LinesNotRun) > 0:
		return isAre(r.LinesNotRun) + " not logged at all."
	case worst >= 1:
		return "Every planned line was logged from end to end."
	case 100*(1-worst) < enough:
		return "Every planned line was logged but for a metre or two."
	}
	return fmt.Sprintf("Only %s %% of %s is on the log: open the log before the fish, not the vessel, crosses the start, and close it once the fish is past the end.",
		survey.Percent(100*worst, 0), short)
}

func whyOffLine(r *Report, limit float64) string {
	w := &r.Lines[0]
	for i := range r.Lines {
		if r.Lines[i].OffLineMax > w.OffLineMax {
			w = &r.Lines[i]
		}
	}
	if w.OffLineMax <= limit {
		return fmt.Sprintf("The vessel kept within the limit; her worst was %.1f m on %s.", w.OffLineMax, w.Name)
	}
	n := len(w.Series.OffLine)
	if n > 4 && math.Abs(w.Series.OffLine[0]) > limit && math.Abs(w.Series.OffLine[n/2]) <= limit {
		return fmt.Sprintf("%.1f m off at the start of %s: take a longer run-in.", w.OffLineMax, w.Name)
	}
	return fmt.Sprintf("%.1f m off line on %s: allow for wind and current and steer small.", w.OffLineMax, w.Name)
}

func whyAltitude(r *Report, low, high float64) string {
	var w *Line
	for i := range r.Lines {
		l := &r.Lines[i]
		if l.InBand != nil && l.Altitude != nil && (w == nil || *l.InBand < *w.InBand) {
			w = l
		}
	}
	switch {
	case *w.InBand >= 100:
		return "The fish was flown at the height wanted on every line."
	case *w.InBand > 100-enough:
		return "The fish was flown at the height wanted but for a few pings on " + w.Name + "."
	}
	a := w.Altitude
	switch {
	case a.Mean > high || a.Mean >= low && a.Max-high > low-a.Min:
		return fmt.Sprintf("Fish up to %.0f %% of range scale on %s (mean %.0f %%): too high; pay out cable or slow down.", a.Max, w.Name, a.Mean)
	default:
		return fmt.Sprintf("Fish down to %.0f %% of range scale on %s (mean %.0f %%): too low; haul in or speed up.", a.Min, w.Name, a.Mean)
	}
}

func whyPings(r *Report, wanted float64) string {
	var w *Line
	for i := range r.Lines {
		l := &r.Lines[i]
		if l.PingsPerMetre != nil && (w == nil || *l.PingsPerMetre < *w.PingsPerMetre) {
			w = l
		}
	}
	if *w.PingsPerMetre >= wanted {
		return "Slow enough for the range scale on every line."
	}
	if w.Speed == nil {
		return fmt.Sprintf("Too few pings per metre on %s: slow down, or use a shorter range scale.", w.Name)
	}
	return fmt.Sprintf("%.1f m/s on %s is too fast for this range scale: slow down to %.1f m/s, or use a shorter range scale with closer lines.",
		w.Speed.Mean, w.Name, w.Speed.Mean**w.PingsPerMetre/wanted)
}

func whyObjects(r *Report) string {
	var passed, missed, unmarked []string
	for _, t := range r.Targets {
		switch {
		case t.BestPings == 0:
			passed = append(passed, t.Name)
		case !t.ThreePings:
			missed = append(missed, t.Name)
		case t.Contact == nil:
			unmarked = append(unmarked, t.Name)
		}
	}
	switch {
	case len(passed) > 0:
		return fmt.Sprintf("No ping of a logged line lit %s: out of every swath, in a gap, the nadir or a shadow.", few(passed))
	case len(missed) > 0:
		return fmt.Sprintf("Too few pings on %s: a gap, the nadir or a shadow hid it; a line past the other side would show it.", few(missed))
	case len(unmarked) > 0:
		return fmt.Sprintf("All lit; %s not marked: look at the record again, slowly.", isAre(unmarked))
	}
	return "Every object was lit often enough on one line and marked."
}

// whyPosition looks for the cause of the largest part of the error.
func whyPosition(r *Report) string {
	fish, ground := r.Position.Fish, r.Position.GroundHalf
	const small = 2.0 // metres: not worth a cause
	along, across := fish.Along, fish.Across
	askew := r.askewBy()
	switch {
	case ground.Distance.P95 <= small:
		return "The desk puts the ground where it is."
	case askew >= small/2 && askew > max(math.Abs(along.Mean), across.RMS):
		return fmt.Sprintf("Crab: the fish swam %.0f degrees askew to the bearing its swath was laid square to, which throws the far range %.0f m along the track, ahead on one side and astern on the other. Lay the swath by the fish's compass, or run with the stream.",
			r.Position.Askew.RMS, 2*askew)
	case math.Abs(along.Mean) >= max(small/2, math.Abs(across.Mean)) && math.Abs(along.Mean) > along.RMS/2:
		where := "too far astern"
		if along.Mean > 0 {
			where = "too far ahead"
		}
		return fmt.Sprintf("The desk has the fish %.1f m %s: check the antenna-to-tow offset, the cable counter and the catenary factor.",
			math.Abs(along.Mean), where)
	case across.RMS >= max(small/2, along.RMS):
		return fmt.Sprintf("The fish swam %.1f m (rms) to the side of where the desk had it: a cross current or a swing of the vessel; run with the stream or take a longer run-in.",
			across.RMS)
	case fish.Distance.P95 < ground.Distance.P95/2:
		return "The fish is well placed but the ground is not: check the sound speed and the bottom track."
	}
	return fmt.Sprintf("Fish within %.1f m, ground within %.1f m: the fix, the layback and the heading of the swath all add their part.",
		fish.Distance.P95, ground.Distance.P95)
}

// askewBy is how far along the track the ground at half range was laid askew, rms,
// metres.
func (r *Report) askewBy() float64 {
	reach := 0.0
	for i := range r.Lines {
		if l := &r.Lines[i]; l.Altitude != nil {
			reach = max(reach, survey.GroundReach(l.RangeScale, l.Altitude.Mean/100*l.RangeScale))
		}
	}
	if r.Position.Askew == nil {
		return 0
	}
	return reach * math.Sin(r.Position.Askew.RMS/2*math.Pi/180)
}

// lowest is the line with the lowest mean height, nil without one.
func lowest(r *Report) *Line {
	var w *Line
	for i := range r.Lines {
		if l := &r.Lines[i]; l.Altitude != nil && (w == nil || l.Altitude.Mean < w.Altitude.Mean) {
			w = l
		}
	}
	return w
}

// largest tells the holidays by the largest of them.
func largest(c *Coverage) string {
	size := fmt.Sprintf("%.0f m²", c.Holidays[0].SquareMetres)
	if a := c.Holidays[0].SquareMetres; a >= 1e4 {
		size = fmt.Sprintf("%.1f ha", a/1e4)
	}
	if c.HolidayCount == 1 {
		return "1 holiday of " + size
	}
	return fmt.Sprintf("%d holidays, the largest of %s", c.HolidayCount, size)
}

func isAre(names []string) string {
	if len(names) == 1 {
		return names[0] + " was"
	}
	return few(names) + " were"
}

func itThem(names []string) string {
	if len(names) == 1 {
		return "it"
	}
	return "them"
}

// few lists names, but no more than a sentence can carry.
func few(names []string) string {
	const most = 4
	n := len(names)
	switch {
	case n == 1:
		return names[0]
	case n > most:
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), n-most)
	}
	return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
}
