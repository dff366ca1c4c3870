package coverage

import (
	"math"
)

// Line is a line to be run from A to B.
type Line struct{ A, B Point }

// Length is that of the line, metres.
func (l Line) Length() float64 { return math.Hypot(l.B.X-l.A.X, l.B.Y-l.A.Y) }

const (
	nadirShare = 1.0 / 6 // of the reach, next to nadir, is not to be relied upon (IHO C-13, chapter 4, 2.3.3.3: 25 m of 150)
	overlap    = 2.0     // metres that a line sees beyond the holiday on every side
	shortest   = 20.0    // metres: less is no line
	ways       = 72      // directions tried, evenly over half a turn
	mostLines  = 20      // for one holiday
	turn       = 150.0   // metres that another line costs besides its own length, with its turn and run-in
)

// Lay finds the lines that fill a holiday with swaths of so many metres a side over the
// ground: parallel, each with a strip of the holiday on one side of it, between the
// nadir and the end of the swath, and as long as that strip; of the direction that makes
// them shortest in all, the turn to each counted.
func (h *Holiday) Lay(reach float64) {
	h.Fill = nil
	use := reach*(1-nadirShare) - 2*overlap
	if !(use > bin) || len(h.cells) == 0 {
		return
	}
	best := math.Inf(1)
	for k := range ways {
		course := math.Pi * float64(k) / ways
		lines, length := h.strips(course, use, reach)
		if cost := length + turn*float64(len(lines)); len(lines) <= mostLines && cost < best-1e-9 {
			best, h.Fill = cost, lines
		}
	}
}

// bin is how finely cells are sorted across a course, metres.
const bin = 0.5

// strips cuts the holiday into strips along a course, each no wider than one side of a
// line can be relied upon, and lays their lines.
func (h *Holiday) strips(course, use, reach float64) (lines []Line, length float64) {
	sin, cos := math.Sincos(course)
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range h.cells {
		across := c.X*cos - c.Y*sin
		low, high = min(low, across), max(high, across)
	}
	type span struct{ from, to float64 }
	spans := make([]span, int((high-low)/bin)+1)
	for i := range spans {
		spans[i] = span{math.Inf(1), math.Inf(-1)}
	}
	for _, c := range h.cells {
		s := &spans[int((c.X*cos-c.Y*sin-low)/bin)]
		along := c.X*sin + c.Y*cos
		s.from, s.to = min(s.from, along), max(s.to, along)
	}
	wide := max(int(use/bin), 1)
	for i := 0; i < len(spans); {
		if spans[i].to < spans[i].from {
			i++
			continue
		}
		strip := spans[i]
		end := min(i+wide, len(spans))
		for _, s := range spans[i:end] {
			strip.from, strip.to = min(strip.from, s.from), max(strip.to, s.to)
		}
		middle, half := (strip.from+strip.to)/2, max((strip.to-strip.from)/2+overlap, shortest/2)
		// To the left of the strip, as near as the nadir allows.
		off := low + float64(i)*bin - overlap - reach*nadirShare
		lines = append(lines, Line{at(course, middle-half, off), at(course, middle+half, off)})
		length += 2 * half
		i = end
	}
	return lines, length
}

// at is the point so far along a course and across it from the origin.
func at(course, along, across float64) Point {
	sin, cos := math.Sincos(course)
	return Point{along*sin + across*cos, along*cos - across*sin}
}
