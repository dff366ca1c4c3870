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
	ways       = 180     // directions tried, evenly over half a turn
	mostLines  = 20      // for one holiday
)

// Lay finds the lines that fill a holiday with swaths of so many metres a side over the
// ground: parallel, so that all of it falls on one side of a line between the nadir and
// the end of the swath, of the direction that makes them shortest in all. What lies
// wider than a side takes several, and the direction is that of least length in all.
func (h *Holiday) Lay(reach float64) {
	h.Fill = nil
	use := reach*(1-nadirShare) - 2*overlap
	if !(use > 0) || len(h.cells) == 0 {
		return
	}
	best := math.Inf(1)
	for k := range ways {
		course := math.Pi * float64(k) / ways
		along0, along1, across0, across1 := h.extent(course)
		n := max(int(math.Ceil((across1-across0)/use)), 1)
		length := max(along1-along0+2*overlap, shortest)
		if n > mostLines || float64(n)*length >= best-1e-9 {
			continue
		}
		best = float64(n) * length
		h.Fill = h.Fill[:0]
		middle := (along0 + along1) / 2
		strip := (across1 - across0) / float64(n)
		for i := range n {
			// To starboard of the line, as near as the nadir allows.
			off := across0 + float64(i)*strip - overlap - reach*nadirShare
			h.Fill = append(h.Fill, Line{at(course, middle-length/2, off), at(course, middle+length/2, off)})
		}
	}
}

// extent is that of the cells along a course and across it, metres from the origin.
func (h *Holiday) extent(course float64) (along0, along1, across0, across1 float64) {
	sin, cos := math.Sincos(course)
	along0, along1, across0, across1 = math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, c := range h.cells {
		a, b := c.X*sin+c.Y*cos, c.X*cos-c.Y*sin
		along0, along1, across0, across1 = min(along0, a), max(along1, a), min(across0, b), max(across1, b)
	}
	return along0, along1, across0, across1
}

// at is the point so far along a course and across it from the origin.
func at(course, along, across float64) Point {
	sin, cos := math.Sincos(course)
	return Point{along*sin + across*cos, along*cos - across*sin}
}
