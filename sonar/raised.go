package sonar

import (
	"cmp"
	"math"
	"slices"

	"dryline/seabed"
)

// blocked is a stretch of elevations, as tangents, in which nothing farther out
// is seen.
type blocked struct{ low, high float64 }

// walkRaised adds the echoes of the parts clear of the floor, and works out what
// share of the lit part of each facet lies in their shadow; nil without parts.
//
// Parts and facets are met in one sweep outwards. Of each part answers what
// rises above the floor before it and is not behind a nearer part; then it hides
// its own elevations from all that follows. So the echo of a rod is that of its
// extent across the ray, however finely it was cut. Nothing is hidden any more
// once the floor has risen above the highest of them.
//
// It begins at the facet of index first, with the horizon that stands before it.
func (e *Engine) walkRaised(ws *Workspace, s *Section, dst *Echo, first int, horizon, fishZ float64) []float64 {
	if len(s.Raised) == 0 {
		return nil
	}
	slices.SortFunc(s.Raised, func(a, b seabed.Raised) int { return cmp.Compare(a.G, b.G) })
	if cap(ws.hidden) < len(s.G) {
		ws.hidden = make([]float64, 2*len(s.G))
	}
	ws.hidden = ws.hidden[:len(s.G)]
	clear(ws.hidden)
	ws.blocked = ws.blocked[:0]
	parts := s.Raised
	for i := first; i < len(s.G); i++ {
		g := s.G[i]
		for len(parts) > 0 && parts[0].G < g {
			e.meet(ws, dst, &parts[0], fishZ, horizon)
			parts = parts[1:]
		}
		if n := len(ws.blocked); n > 0 && len(parts) == 0 && horizon >= ws.blocked[n-1].high {
			return ws.hidden
		}
		if tangent := (s.Z[i] - fishZ) / g; tangent > horizon {
			for _, b := range ws.blocked { // none before the first facet
				if over := min(b.high, tangent) - max(b.low, horizon); over > 0 {
					ws.hidden[i] += over / (tangent - horizon)
				}
			}
			horizon = tangent
		}
	}
	for i := range parts {
		e.meet(ws, dst, &parts[i], fishZ, horizon)
	}
	return ws.hidden
}

// meet adds the echo of one part as far as it is seen above the horizon, and
// blocks its elevations.
func (e *Engine) meet(ws *Workspace, dst *Echo, part *seabed.Raised, fishZ, horizon float64) {
	q := newQuad(part, fishZ)
	low, high := q.elevations()
	low = max(low, horizon)
	const least = 1e-9 // of a tangent: less is rounding where two pieces join
	seen := false
	from := low
	for _, b := range ws.blocked {
		if to := min(b.low, high); to > from+least {
			e.answer(ws, part, &q, from, to)
			seen = true
		}
		from = max(from, b.high)
	}
	if high > from+least {
		e.answer(ws, part, &q, from, high)
		seen = true
	}
	if seen && dst != nil {
		dst.note(part.Object)
	}
	if high > low {
		ws.blocked = block(ws.blocked, low, high)
	}
}

// block adds a stretch to others that are in order and apart.
func block(all []blocked, low, high float64) []blocked {
	i := 0
	for i < len(all) && all[i].high < low {
		i++
	}
	j := i
	for ; j < len(all) && all[j].low <= high; j++ {
		low, high = min(low, all[j].low), max(high, all[j].high)
	}
	return slices.Replace(all, i, j, blocked{low, high})
}

// answer adds the echo of a part between two elevations. Its near face is round
// and answers at normal incidence, averaged over its round; its upper and lower
// side answer at the angle at which they are met. The echo is spread over the
// slant ranges at which the ray meets them. Left out: the reach of the round
// along the ray.
func (e *Engine) answer(ws *Workspace, part *seabed.Raised, q *quad, low, high float64) {
	const round = 3 * strengthSteps / 4.0 // sine averaged over a half round is 0.79
	face0, face1 := q.face()
	for _, side := range [...]struct{ from, to, side float64 }{
		{low, min(high, face0), -1}, {max(low, face0), min(high, face1), 0}, {max(low, face1), high, 1},
	} {
		if side.to <= side.from {
			continue
		}
		g0, z0 := q.at(side.from, side.side)
		g1, z1 := q.at(side.to, side.side)
		r0, r1 := math.Hypot(g0, z0), math.Hypot(g1, z1)
		r := (r0 + r1) / 2
		across := r * (math.Atan(side.to) - math.Atan(side.from))
		length, step := across, round
		if side.side != 0 {
			length = max(across, math.Hypot(g1-g0, z1-z0))
			step *= across / length
		}
		sine := -(side.from + side.to) / 2
		sine /= math.Hypot(1, sine)
		dip := min(max(int((sine+1)*(dipSteps/2)), 0), dipSteps-1)
		a, b := min(r0, r1)/e.bin, max(r0, r1)/e.bin
		if b < a+1 {
			a, b = (a+b-1)/2, (a+b+1)/2
		}
		if ws.labels != nil {
			ws.labels.spot = spotAt(part.Class, part.Object, (g0+g1)/2, (z0+z1)/2+q.fishZ, sine)
		}
		ws.deposit(part.Class, int(step), dip, length*r*e.boost(part.Object), max(a, 0), b)
	}
}

// quad is a part in the plane of the ray: two upright sides joined by straight
// edges. Heights are above the fish.
type quad struct {
	g, z, half    float64 // near side: ground range, middle and half its height, metres
	length, climb float64 // from the near side to the far one
	fishZ         float64
}

func newQuad(part *seabed.Raised, fishZ float64) quad {
	return quad{
		g:      max(part.G-part.Length/2, 1e-3),
		z:      (part.Z0+part.Z1-part.Climb)/2 - fishZ,
		half:   max((part.Z1-part.Z0-math.Abs(part.Climb))/2, 0),
		length: part.Length, climb: part.Climb, fishZ: fishZ,
	}
}

// face is the elevations of the near side.
func (q *quad) face() (low, high float64) { return (q.z - q.half) / q.g, (q.z + q.half) / q.g }

// elevations is all that the part covers.
func (q *quad) elevations() (low, high float64) {
	low, high = q.face()
	far, z := q.g+q.length, q.z+q.climb
	return min(low, (z-q.half)/far), max(high, (z+q.half)/far)
}

// at is where a ray of that elevation first meets the part: on the near side
// (0), the upper edge (1) or the lower edge (-1).
func (q *quad) at(tangent, side float64) (g, z float64) {
	u := 0.0
	if rise := q.climb - tangent*q.length; side != 0 && rise != 0 {
		u = min(max((tangent*q.g-q.z-side*q.half)/rise, 0), 1)
	}
	g = q.g + u*q.length
	return g, tangent * g
}
