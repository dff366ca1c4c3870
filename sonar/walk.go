package sonar

import (
	"math"

	"dryline/seabed"
)

// progress is how far a walk has come: the end of its last facet and the highest
// elevation so far.
type progress struct {
	g, drop, r float64 // ground range, depth below the fish, slant range
	tangent    float64 // of the elevation
	horizon    float64
}

// belowFish is where every walk of a whole ray begins.
func belowFish(s *Section, fishZ float64) progress {
	drop := fishZ - s.Z[0]
	return progress{drop: drop, r: math.Abs(drop), tangent: math.Inf(-1), horizon: math.Inf(-1)}
}

// walk adds the echo of a section of ground, from its facet of index first on, to
// the energy of every channel, weighed as was aimed last.
//
// The floor between two steps is a straight facet. It is lit as far as it
// rises above the highest elevation seen so far; its echo is spread over the
// slant ranges it spans. Each channel's share is
//
//	weight x vertical pattern x strength(sin gamma, class) x area
//
// with sin gamma from the facet's extent across the ray, and over drawn
// micro-relief the remainder of what that takes on itself, see remainders. The beam of a line
// array is a cone about the track: at slant range R a width Theta covers
// R Theta of track, not ground range times Theta. Left out: slope along track
// (second order in the area). In water with layers the elevations, the
// arrival and the slant range are those of the bent ray, see refraction.
//
// hidden and through are the share of each facet's lit part that something clear
// of the floor hides, and the share of its echo that comes through what hangs in
// the water; nil for none and all. dst takes the objects seen, unless it is nil.
//
// It returns how far it came. walkPlain in the tests is the same thing written for reading.
func (e *Engine) walk(ws *Workspace, s *Section, dst *Echo, first int, from progress, fishZ float64, hidden, through []float64) progress {
	var (
		gs       = s.G
		zs       = s.Z[:len(gs)]
		classes  = s.Class[:len(gs)]
		objects  = s.Object[:len(gs)]
		drawn    = s.Drawn
		slopes   = s.Slope
		rest     = e.remainders
		inverses []float64
		invBin   = 1 / e.bin
		horizon  = from.horizon
		g0       = from.g
		drop0    = from.drop
		range0   = from.r
		tangent0 = from.tangent
		labels   = ws.labels
	)
	if len(gs) == len(ws.ground) && &gs[0] == &ws.ground[0] {
		inverses = ws.inverse
	}
	for i := first; i < len(gs); i++ {
		g := gs[i]
		drop := fishZ - zs[i]
		var tangent float64
		if inverses != nil {
			tangent = -drop * inverses[i]
		} else {
			tangent = -drop / g
		}
		r := math.Sqrt(g*g + drop*drop)
		var bent bending
		if ws.refraction != nil {
			bent = ws.refraction.at(g, drop-fishZ)
			tangent += float64(bent.launch)
			r += float64(bent.excess)
		}
		if tangent > horizon {
			lit, from := 1.0, range0
			if tangent0 < horizon { // the facet rises out of a shadow: its far part is lit
				lit = (tangent - horizon) / (tangent - tangent0)
				from = r - lit*(r-range0)
			}
			horizon = tangent
			if hidden != nil {
				lit *= 1 - hidden[i]
			}
			if through != nil {
				lit *= through[i]
			}
			// Extent of the facet along its own surface and, at its middle, across
			// the ray.
			dg, rise := g-g0, drop0-drop
			length := math.Sqrt(dg*dg + rise*rise)
			rm := (range0 + r) / 2
			each := 1 / (rm * length) // one division serves three
			inverse := each * length
			gm, dm := (g0+g)/2, (drop0+drop)/2
			depression := dm * inverse // its sine, at the fish
			if ws.refraction != nil {
				depression = -tangent / math.Sqrt(1+tangent*tangent)
				arrive := dm/gm - float64(bent.arrive)
				gm = rm / math.Sqrt(1+arrive*arrive)
				dm = arrive * gm
			}
			sine := (rise*gm + dg*dm) * each
			if sine > 0 && lit > 0 {
				step := min(int(sine*strengthSteps), strengthSteps-1)
				dip := min(max(int((depression+1)*(dipSteps/2)), 0), dipSteps-1)
				area := length * rm * lit
				if drawn {
					// The sine of the grazing angle without the micro-relief, to first order
					// of the slope.
					area *= rest.at(classes[i], (slopes[i]*gm+dm)*inverse)
				}
				if o := objects[i]; o != 0 {
					area *= e.boost(o)
					if dst != nil {
						dst.note(o)
					}
				}
				if labels != nil {
					labels.spot = spotAt(classes[i], objects[i], gm, fishZ-dm, sine)
				}
				ws.deposit(classes[i], step, dip, area, from*invBin, r*invBin)
			}
		}
		g0, drop0, range0, tangent0 = g, drop, r, tangent
	}
	return progress{g0, drop0, range0, tangent0, horizon}
}

// deposit spreads the echo of a facet evenly over the slant ranges from a to b,
// both in bins. area is per radian of beam.
//
// The bins hold differences: an echo that begins at a adds x(1-f) to the bin it
// begins in and x f to the next, where f is how far into the bin it begins,
// and takes the same away where it ends. One running sum then gives the energy
// of every bin, however many a facet spans.
func (ws *Workspace) deposit(class seabed.Class, step, dip int, area, a, b float64) {
	ws.changed = true
	if a > b {
		a, b = b, a
	}
	const shortest = 1e-3 // bins
	b = max(b, a+shortest)
	density := area / (b - a)
	end := float64(ws.bins)
	if a >= end {
		return
	}
	b = min(b, end)
	ka, kb := int(a), int(b)
	fa, fb := a-float64(ka), b-float64(kb)
	segment := ka >> segmentShift
	if n := scatterers[class]; n > 0 {
		ws.mark(ka, min(kb, ws.bins-1), n)
	}
	for i := range ws.lanes {
		l := &ws.lanes[i]
		x := density * l.now[segment] * float64(l.vertical[dip]*l.strength[class][step])
		if i == 0 && ws.labels != nil {
			ws.labels.take(l, x, ka, kb, fa, fb, b-a)
		}
		rise, fall := l.change[ka:ka+2], l.change[kb:kb+2]
		rise[0] += x * (1 - fa)
		rise[1] += x * fa
		fall[0] -= x * (1 - fb)
		fall[1] -= x * fb
	}
}

// mark notes that few scatterers, n to the square metre, answer in the bins from
// one to another; the fewest stands.
func (ws *Workspace) mark(from, to int, n float32) {
	ws.coarse = true
	for k := from; k <= to; k++ {
		if g := ws.grain[k]; g == 0 || n < g {
			ws.grain[k] = n
		}
	}
}

// note records an object as lit, once.
func (dst *Echo) note(object uint16) {
	for _, o := range dst.Lit {
		if o == object {
			return
		}
	}
	dst.Lit = append(dst.Lit, object)
}
