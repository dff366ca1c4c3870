package plan

import (
	"math"
	"slices"
)

// Point is a place, metres.
type Point struct{ X, Y float64 }

// Part is one piece of an area: a ring and its holes.
type Part struct {
	Outer []Point
	Holes [][]Point
}

// rings are all of a part's.
func (p *Part) rings() [][]Point { return append([][]Point{p.Outer}, p.Holes...) }

// Square is the area, m^2.
func (p *Part) Square() float64 {
	sum := math.Abs(shoelace(p.Outer))
	for _, h := range p.Holes {
		sum -= math.Abs(shoelace(h))
	}
	return sum
}

func shoelace(ring []Point) float64 {
	sum := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return sum / 2
}

// Contains reports whether a place lies in the part and in none of its holes.
func (p *Part) Contains(at Point) bool {
	in := false
	for _, ring := range p.rings() {
		if inside(ring, at) {
			in = !in
		}
	}
	return in
}

func inside(ring []Point, at Point) bool {
	in := false
	q := ring[len(ring)-1]
	for _, p := range ring {
		if (p.Y > at.Y) != (q.Y > at.Y) && at.X < (q.X-p.X)*(at.Y-p.Y)/(q.Y-p.Y)+p.X {
			in = !in
		}
		q = p
	}
	return in
}

// frame turns the grid so that u runs along a bearing and v to the right of it.
type frame struct{ sin, cos float64 }

func along(bearing float64) frame {
	sin, cos := math.Sincos(bearing)
	return frame{sin, cos}
}

func (f frame) to(p Point) (u, v float64) { return p.X*f.sin + p.Y*f.cos, p.X*f.cos - p.Y*f.sin }

func (f frame) from(u, v float64) Point { return Point{u*f.sin + v*f.cos, u*f.cos - v*f.sin} }

// span is a stretch along a line, metres.
type span struct{ from, to float64 }

// scan is where the line at v along a frame runs inside of a part.
func (p *Part) scan(f frame, v float64) []span {
	var cuts []float64
	for _, ring := range p.rings() {
		u0, v0 := f.to(ring[len(ring)-1])
		for _, c := range ring {
			u1, v1 := f.to(c)
			if (v1 > v) != (v0 > v) {
				cuts = append(cuts, u0+(v-v0)*(u1-u0)/(v1-v0))
			}
			u0, v0 = u1, v1
		}
	}
	slices.Sort(cuts)
	var out []span
	for i := 0; i+1 < len(cuts); i += 2 {
		out = append(out, span{cuts[i], cuts[i+1]})
	}
	return out
}

// strip returns what of a part lies between v0 and v1, seen along a frame: scans every few
// metres and beside each corner, put together.
func (p *Part) strip(f frame, v0, v1 float64) []span {
	const scans = 12
	var all []span
	add := func(v float64) {
		if v > v0 && v < v1 {
			all = append(all, p.scan(f, v)...)
		}
	}
	for i := range scans {
		add(v0 + (v1-v0)*(float64(i)+0.5)/scans)
	}
	for _, ring := range p.rings() {
		for _, c := range ring {
			_, v := f.to(c)
			add(v - 1e-6)
			add(v + 1e-6)
		}
	}
	return merge(all, 0)
}

// merge puts together spans that overlap or lie no further apart than a gap.
func merge(all []span, gap float64) []span {
	slices.SortFunc(all, func(a, b span) int {
		switch {
		case a.from < b.from:
			return -1
		case a.from > b.from:
			return 1
		}
		return 0
	})
	var out []span
	for _, s := range all {
		if n := len(out); n > 0 && s.from <= out[n-1].to+gap {
			out[n-1].to = max(out[n-1].to, s.to)
			continue
		}
		out = append(out, s)
	}
	return out
}

// across is how far a part reaches across a frame.
func (p *Part) across(f frame) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, c := range p.Outer {
		_, v := f.to(c)
		low, high = min(low, v), max(high, v)
	}
	return low, high
}

// hull is the convex hull, anticlockwise (A. M. Andrew, Information Processing Letters 9,
// 216-219, 1979).
func hull(points []Point) []Point {
	all := slices.Clone(points)
	slices.SortFunc(all, func(a, b Point) int {
		if a.X < b.X || a.X == b.X && a.Y < b.Y {
			return -1
		}
		if a == b {
			return 0
		}
		return 1
	})
	all = slices.Compact(all)
	if len(all) < 3 {
		return all
	}
	half := func(points []Point) (out []Point) {
		for _, p := range points {
			for len(out) > 1 && cross(out[len(out)-2], out[len(out)-1], p) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:len(out)-1]
	}
	low := half(all)
	slices.Reverse(all)
	return append(low, half(all)...)
}

func cross(a, b, c Point) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }

// Width is the least distance between two parallels that hold all points between them,
// and the bearing they run on, 0 to pi: by rotating calipers, one of them lies along an
// edge of the hull (M. E. Houle and G. T. Toussaint, IEEE Trans. Pattern Analysis and
// Machine Intelligence 10, 761-765, 1988). Lines along it are the fewest.
func Width(points []Point) (width, bearing float64) {
	h := hull(points)
	if len(h) < 3 {
		if len(h) == 2 {
			return 0, half(math.Atan2(h[1].X-h[0].X, h[1].Y-h[0].Y))
		}
		return 0, 0
	}
	width = math.Inf(1)
	far := 1
	for i := range h {
		a, b := h[i], h[(i+1)%len(h)]
		for cross(a, b, h[(far+1)%len(h)]) > cross(a, b, h[far]) {
			far = (far + 1) % len(h)
		}
		if w := cross(a, b, h[far]) / math.Hypot(b.X-a.X, b.Y-a.Y); w < width-1e-9 {
			width, bearing = w, half(math.Atan2(b.X-a.X, b.Y-a.Y))
		}
	}
	return width, bearing
}

// half is a direction without a sense, 0 to pi.
func half(bearing float64) float64 {
	b := math.Mod(math.Mod(bearing, math.Pi)+math.Pi, math.Pi)
	if b > math.Pi-1e-9 {
		return 0
	}
	return b
}
