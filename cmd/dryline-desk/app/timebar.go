package app

import (
	"cmp"
	"fmt"
	"image"
	"math"
	"slices"
	"strings"
	"time"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/debrief"
)

// timebar shows what happened when in a session that is over, on one bar of time, and the
// moment of it that is chosen.
type timebar struct {
	report *debrief.Report
	events []occurrence // by lane, as they are drawn
	stops  []float64    // what can be gone to from one to the next, seconds in order

	at   float64 // chosen, seconds
	pane image.Rectangle
	lane [laneCount]image.Rectangle
	gone image.Point // where the pointer was last
	on   bool        // it is on the bar
}

// lane is a row of the bar.
type lane int

// The lanes, from the top.
const (
	lineLane lane = iota
	heightLane
	coachLane
	orderLane
	markLane
	mishapLane
	laneCount
)

var laneNames = [laneCount]string{"Lines", "Height", "Coach", "Settings", "Marks", "Mishaps"}

// laneTall is how tall a lane is, in lines of lettering.
var laneTall = [laneCount]float64{1, 2.2, 1.4, 1, 1, 1}

// occurrence is something on the bar, for a while or at a moment.
type occurrence struct {
	lane     lane
	kind     string // of its lane: how severe a hint is, what a mark came to
	from, to float64
	says     string
}

// newTimebar sets out what a report tells of the time.
func newTimebar(r *debrief.Report) timebar {
	b := timebar{report: r}
	t := &r.Timeline
	for _, l := range t.Lines {
		b.add(occurrence{lineLane, l.What, l.From, l.To, fmt.Sprintf("line %s logged from %s to %s", l.What, b.clock(l.From), b.clock(l.To))})
	}
	for _, h := range t.Hints {
		b.add(occurrence{coachLane, h.Kind, h.From, h.To, "coach, " + h.Kind + ": " + h.Says})
	}
	for _, o := range t.Orders {
		b.add(occurrence{orderLane, o.What, o.At, o.At, "order: " + o.Says})
	}
	for _, m := range t.Marks {
		b.add(occurrence{markLane, m.What, m.At, m.At, "mark: " + m.Says})
	}
	for _, m := range r.Mishaps {
		b.add(occurrence{mishapLane, m.What, m.Time, m.Time, "mishap: " + m.Says})
	}
	b.stops = append(b.stops, 0, b.end())
	for i := range b.events {
		b.stops = append(b.stops, b.events[i].from)
		if b.events[i].lane == lineLane {
			b.stops = append(b.stops, b.events[i].to)
		}
	}
	for _, it := range r.Score.Items {
		for _, c := range it.Causes {
			if b.timed(&c) {
				b.stops = append(b.stops, c.From)
			}
		}
	}
	slices.Sort(b.stops)
	b.stops = slices.Compact(b.stops)
	for _, c := range r.Score.Better {
		if b.timed(&c) { // what cost most
			b.at = c.From
			break
		}
	}
	return b
}

func (b *timebar) add(h occurrence) { b.events = append(b.events, h) }

// timed reports a cause that has its time: one of the whole run has none.
func (b *timebar) timed(c *debrief.Cause) bool {
	return c.To > 0 && (c.From > 0 || c.To < b.end()-1)
}

// end is how long the session was, seconds.
func (b *timebar) end() float64 { return max(b.report.Simulated, 0.1) }

// clock is the time on board at a moment.
func (b *timebar) clock(s float64) string { return clockAt(b.report.Exercise.Start, s) }

// clockAt is the time on board so many seconds after a start.
func clockAt(start time.Time, s float64) string {
	return start.Add(seconds(s)).UTC().Format("15:04:05")
}

// tick is the tick of the moment chosen.
func (b *timebar) tick() int64 { return int64(math.Round(b.at * 10)) }

// choose chooses a moment.
func (b *timebar) choose(s float64) { b.at = min(max(s, 0), b.end()) }

// step chooses the next stop, or the one before.
func (b *timebar) step(by int) {
	const same = 0.05 // seconds
	if by > 0 {
		if i := slices.IndexFunc(b.stops, func(s float64) bool { return s > b.at+same }); i >= 0 {
			b.at = b.stops[i]
		}
		return
	}
	for _, s := range slices.Backward(b.stops) {
		if s < b.at-same {
			b.at = s
			return
		}
	}
}

// tall is how tall the bar is, pixels.
func (b *timebar) tall(l *look.Look) int {
	rows := 1.0 // the clock's
	for _, t := range laneTall {
		rows += t
	}
	return int(math.Ceil(rows*b.row(l))) + l.Px(6)
}

// row is the height of a lane of one line of lettering.
func (b *timebar) row(l *look.Look) float64 { return look.Tall(l.Small) + float64(l.Px(1)) }

// lay gives the bar its place.
func (b *timebar) lay(l *look.Look, pane image.Rectangle) {
	b.pane = pane
	names := 0.0
	for _, n := range laneNames {
		names = max(names, look.Wide(n, l.Small))
	}
	y := float64(pane.Min.Y + l.Px(3))
	for i := range b.lane {
		tall := laneTall[i] * b.row(l)
		b.lane[i] = image.Rect(pane.Min.X+int(names)+l.Px(18), int(y), pane.Max.X-l.Px(14), int(y+tall))
		y += tall
	}
}

// x is where a moment is on the bar, pixels.
func (b *timebar) x(s float64) float64 {
	r := b.lane[0]
	return float64(r.Min.X) + float64(r.Dx())*min(max(s/b.end(), 0), 1)
}

// time is the moment under a pixel.
func (b *timebar) time(x int) float64 {
	r := b.lane[0]
	return min(max(float64(x-r.Min.X)/max(float64(r.Dx()), 1), 0), 1) * b.end()
}

// point has the pointer rest on a pixel.
func (b *timebar) point(at image.Point, taken bool) {
	b.gone, b.on = at, at.In(b.pane) && !taken
}

// press chooses the moment under a pixel: that of what is there, if it is of a moment.
func (b *timebar) press(at image.Point, l *look.Look) {
	if h := b.under(at, l); h != nil && h.from == h.to {
		b.choose(h.from)
		return
	}
	b.choose(b.time(at.X))
}

// under finds what lies nearest to a pixel, nil for nothing.
func (b *timebar) under(at image.Point, l *look.Look) *occurrence {
	var nearest *occurrence
	reach := 6 * l.Scale
	best := reach
	for i := range b.events {
		h := &b.events[i]
		r := b.lane[h.lane]
		if h.lane == coachLane {
			r = b.hintLane(h.kind)
		}
		if at.Y < r.Min.Y || at.Y >= r.Max.Y {
			continue
		}
		x0, x1 := b.x(h.from), b.x(h.to)
		if off := max(x0-float64(at.X), float64(at.X)-x1, 0); off < best || off == 0 && nearest != nil && h.to-h.from < nearest.to-nearest.from {
			nearest, best = h, off
		}
	}
	return nearest
}

// hintLane is the part of the coach's lane for hints of one severity, the most severe
// lowest.
func (b *timebar) hintLane(kind string) image.Rectangle {
	r := b.lane[coachLane]
	i := max(slices.Index([]string{"note", "caution", "alarm"}, kind), 0)
	return image.Rect(r.Min.X, r.Min.Y+r.Dy()*i/3, r.Max.X, r.Min.Y+r.Dy()*(i+1)/3)
}

// says tells what went on at a moment.
func (b *timebar) says(s float64) string {
	const near = 0.5 // seconds
	var list []occurrence
	for _, h := range b.events {
		if h.from-near <= s && s <= h.to+near {
			list = append(list, h)
		}
	}
	slices.SortStableFunc(list, func(one, two occurrence) int { return cmp.Compare(two.lane, one.lane) })
	var out []string
	for _, h := range list {
		out = append(out, strings.TrimSuffix(h.says, "."))
	}
	if height, ok := b.height(s); ok {
		out = append(out, fmt.Sprintf("fish at %.0f %% of the range scale", height))
	}
	return strings.Join(out, "; ")
}

// height is how high the fish was at a moment, per cent of the range scale; only what
// was logged is known.
func (b *timebar) height(s float64) (float64, bool) {
	t := &b.report.Timeline
	i, _ := slices.BinarySearch(t.Time, s)
	i = min(i, len(t.Time)-1)
	if i > 0 && s-t.Time[i-1] < t.Time[i]-s {
		i--
	}
	if i < 0 || math.Abs(t.Time[i]-s) > b.gap() {
		return 0, false
	}
	return t.Height[i], true
}

// gap is the time between two heights that are of different stretches.
func (b *timebar) gap() float64 { return max(b.end()/40, 2) }
