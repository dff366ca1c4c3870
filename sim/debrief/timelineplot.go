package debrief

import (
	"fmt"
	"math"
	"strings"
)

// timelinePlot is a timeline in SVG units, x to the right and y down.
type timelinePlot struct {
	Wide, High, Foot, ClockY float64
	Clock, Lanes             []tick
	Band                     *bar
	Bars                     []bar
	Curves                   []string
	Marks                    []glyph
}

type bar struct {
	X, Y, Wide, High float64
	Class            string
	Label, Says      string
}

// MiddleX and MiddleY are where its label goes.
func (b bar) MiddleX() float64 { return b.X + b.Wide/2 }

// MiddleY is the height of its label.
func (b bar) MiddleY() float64 { return b.Y + b.High/2 }

// glyph is a small sign at a moment. Its shape tells what it is, not its colour alone.
type glyph struct{ Class, Path, Says string }

// Places of the lanes.
const (
	timelineWide  = 1120.0
	timelineLeft  = 64.0
	timelineRight = timelineWide - 10
	laneLines     = 8.0
	laneHeight    = 34.0
	heightHigh    = 64.0
	laneHints     = laneHeight + heightHigh + 12
	hintHigh      = 8.0
	timelineHints = 3 // rows, one per severity
	laneOrders    = laneHints + timelineHints*(hintHigh+3) + 8
	laneMarks     = laneOrders + 20
	laneMishaps   = laneMarks + 20
	timelineFoot  = laneMishaps + 14
)

// drawTimeline lays a report's timeline out.
func drawTimeline(r Report) timelinePlot {
	t := &r.Timeline
	end := max(r.Simulated, 1)
	x := func(s float64) float64 {
		return math.Round(10*(timelineLeft+(timelineRight-timelineLeft)*min(max(s/end, 0), 1))) / 10
	}
	p := timelinePlot{Wide: timelineWide, High: timelineFoot + 18, Foot: timelineFoot, ClockY: timelineFoot + 13}
	p.Lanes = []tick{{laneLines + 9, "Lines"}, {laneHeight + heightHigh/2, "Height"}, {laneHints + 14, "Coach"}, {laneOrders + 4, "Settings"}, {laneMarks + 4, "Marks"}, {laneMishaps + 4, "Mishaps"}}
	for step, s := clockStep(end), 0.0; s <= end; s += step {
		p.Clock = append(p.Clock, tick{x(s), clockOf(r.Exercise.Start, s)[:5]})
	}
	span := func(from, to float64) (at, wide float64) {
		at = x(from)
		return at, max(math.Round(10*(x(to)-at))/10, 2)
	}
	for _, l := range t.Lines {
		at, wide := span(l.From, l.To)
		b := bar{X: at, Y: laneLines, Wide: wide, High: 18, Class: "line", Says: fmt.Sprintf("%s logged from %s to %s", l.What, clockOf(r.Exercise.Start, l.From), clockOf(r.Exercise.Start, l.To))}
		if wide > 9*float64(len([]rune(l.What))) {
			b.Label = l.What
		}
		p.Bars = append(p.Bars, b)
	}
	top := max(r.Wanted.AltitudeMax*1.6, 1)
	for _, h := range t.Height {
		top = max(top, min(h, 60))
	}
	y := func(percent float64) float64 {
		return math.Round(10*(laneHeight+heightHigh*(1-min(max(percent/top, 0), 1)))) / 10
	}
	p.Band = &bar{X: timelineLeft, Y: y(r.Wanted.AltitudeMax), Wide: timelineRight - timelineLeft, High: y(r.Wanted.AltitudeMin) - y(r.Wanted.AltitudeMax)}
	p.Curves = heightCurves(t, x, y, end/40)
	lanes := map[string]float64{"note": 0, "caution": 1, "alarm": 2}
	classes := map[string]string{"note": "note", "caution": "caution-hint", "alarm": "alarm"}
	for _, h := range t.Hints {
		at, wide := span(h.From, h.To)
		p.Bars = append(p.Bars, bar{X: at, Y: laneHints + lanes[h.Kind]*(hintHigh+3), Wide: wide, High: hintHigh, Class: classes[h.Kind], Says: h.Kind + ": " + h.Says})
	}
	for _, o := range t.Orders {
		p.Marks = append(p.Marks, glyph{"order", fmt.Sprintf("M%g %gv10M%g %gh6", x(o.At), laneOrders-5, x(o.At)-3, laneOrders), o.Says})
	}
	for _, m := range t.Marks {
		switch m.What {
		case string(trueMark):
			p.Marks = append(p.Marks, glyph{"true", fmt.Sprintf("M%g %gl5 9h-10z", x(m.At), laneMarks-5), m.Says})
		case string(falseMark):
			p.Marks = append(p.Marks, glyph{"wrong", fmt.Sprintf("M%g %gl8 8m-8 0l8 -8", x(m.At)-4, laneMarks-4), m.Says})
		default:
			p.Marks = append(p.Marks, glyph{"other", fmt.Sprintf("M%g %gh7v7h-7z", x(m.At)-3.5, laneMarks-3.5), m.Says})
		}
	}
	for _, h := range r.Mishaps {
		p.Marks = append(p.Marks, glyph{"mishap", fmt.Sprintf("M%g %gl5 -5l-5 -5l-5 5z", x(h.Time), laneMishaps+5), h.Says})
	}
	return p
}

// heightCurves are the stretches of the height without a gap.
func heightCurves(t *Timeline, x, y func(float64) float64, gap float64) []string {
	var out []string
	var b strings.Builder
	for i := range t.Time {
		if i > 0 && t.Time[i]-t.Time[i-1] > gap {
			out = append(out, b.String())
			b.Reset()
		}
		fmt.Fprintf(&b, "%g,%g ", x(t.Time[i]), y(t.Height[i]))
	}
	if b.Len() > 0 {
		out = append(out, b.String())
	}
	return out
}

// clockStep is how far the times on a timeline are apart, seconds.
func clockStep(end float64) float64 {
	for _, step := range []float64{60, 120, 300, 600, 900, 1800, 3600, 7200} {
		if end/step <= 12 {
			return step
		}
	}
	return 4 * 3600
}
