package seabed

import "math"

// placedPart is a part of a shape where it lies in the world.
type placedPart struct {
	solid
	box      rect    // the solid's bounds, in its own frame
	x, y, z  float64 // of its origin
	sin, cos float64 // of the grid bearing of its x axis
	tilt     float64 // rise along its x axis
	class    Class
	object   uint16 // number of the object it is part of
}

// put adds a part to the world, its x axis on the given bearing.
func (w *World) put(s placedPart, bearing float64) {
	s.sin, s.cos = math.Sincos(bearing)
	w.parts = append(w.parts, s)
}

// local gives a world vector in the part's frame.
func (s *placedPart) local(dx, dy float64) (x, y float64) {
	return dx*s.sin + dy*s.cos, dx*s.cos - dy*s.sin
}

// plan is the upright box that holds the part.
func (s *placedPart) plan() rect {
	r := nowhere()
	for _, x := range []float64{s.box.x0, s.box.x1} {
		for _, y := range []float64{s.box.y0, s.box.y1} {
			r.include(s.x+x*s.sin+y*s.cos, s.y+x*s.cos-y*s.sin)
		}
	}
	return r
}

// topAt is the height of the part's upper side at a world point, metres.
func (s *placedPart) topAt(x, y float64) (float64, bool) {
	px, py := s.local(x-s.x, y-s.y)
	h, ok := s.top(px, py)
	return s.z + s.tilt*px + h, ok
}

// span is the stretch of the ray from (x, y) along (ux, uy) inside the part's
// box, cut to from..to.
func (s *placedPart) span(x, y, ux, uy, from, to float64) (float64, float64) {
	px, py := s.local(x-s.x, y-s.y)
	dx, dy := s.local(ux, uy)
	from, to = slabSpan(px, dx, s.box.x0, s.box.x1, from, to)
	return slabSpan(py, dy, s.box.y0, s.box.y1, from, to)
}

// slabSpan cuts from..to to where p + g*d lies within lo..hi; from > to if
// nowhere.
func slabSpan(p, d, lo, hi, from, to float64) (float64, float64) {
	if math.Abs(d) < 1e-12 {
		if p < lo || p > hi {
			return 1, 0
		}
		return from, to
	}
	a, b := (lo-p)/d, (hi-p)/d
	return max(from, min(a, b)), min(to, max(a, b))
}

// crossing is the stretch of a ray over one part.
type crossing struct {
	part     int32
	from, to float64 // ground ranges
}

// findCrossings lists the parts the ray crosses, by range, and what of the
// rods it cuts.
func (w *World) findCrossings(p *Profile, x, y, ux, uy float64) {
	p.crossed = p.crossed[:0]
	g0, g1 := p.Steps[0], p.Steps[len(p.Steps)-1]
	p.things = w.tree.cross(p.things[:0], x, y, ux, uy, g0, g1)
	for _, t := range p.things {
		w.meet(&p.met, t, x, y, ux, uy, g0, g1)
	}
}

// meet lists what the stretch from g0 to g1 of a ray meets of a thing.
func (w *World) meet(m *met, t thing, x, y, ux, uy, g0, g1 float64) {
	if t < 0 {
		m.Raised = w.rods[^t].cut(m.Raised, x, y, ux, uy, g0, g1)
		return
	}
	from, to := w.parts[t].span(x, y, ux, uy, g0, g1)
	if from > to {
		return
	}
	m.crossed = append(m.crossed, crossing{int32(t), from, to})
	for i := len(m.crossed) - 1; i > 0 && m.crossed[i].from < m.crossed[i-1].from; i-- {
		m.crossed[i], m.crossed[i-1] = m.crossed[i-1], m.crossed[i]
	}
}

// traceObjects raises the profile over the parts crossed.
func (w *World) traceObjects(p *Profile, x, y, ux, uy float64) {
	for _, c := range p.crossed {
		s := &w.parts[c.part]
		px, py := s.local(x-s.x, y-s.y)
		dx, dy := s.local(ux, uy)
		for i := searchUp(p.G, c.from); i < len(p.G) && p.G[i] <= c.to; i++ {
			qx, qy := px+p.G[i]*dx, py+p.G[i]*dy
			if h, ok := s.top(qx, qy); ok {
				if z := s.z + s.tilt*qx + h; z > p.Z[i] {
					p.Z[i], p.Class[i], p.Object[i] = z, s.class, s.object
				}
			}
		}
	}
}

// searchUp returns the first index whose value is at least g.
func searchUp(gs []float64, g float64) int {
	lo, hi := 0, len(gs)
	for lo < hi {
		mid := int(uint(lo+hi) >> 1)
		if gs[mid] < g {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}
