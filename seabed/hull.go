package seabed

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// form is a hull by its table of offsets: at stations u from 0 (stern) to 1
// (stem), shares of half the beam and of the depth.
type form struct {
	length, beam, depth float64 // metres
	offsets             *offsets
	turn                float64 // height of the turn of the bilge, share from keel to rail
	bulwark, coaming    float64 // heights, shares of the depth
	side                float64 // thickness of the side seen from above, share of the beam
	holds               []hold
}

// offsets are the curves of a hull at the stations u; keel and sheer are
// heights.
type offsets struct {
	u                        []float64
	deck, bilge, keel, sheer fair
}

// fair is a curve through the given shares, smooth and without bumps between
// them: Fritsch and Butland's monotone cubic (SIAM J. Sci. Stat. Comput. 5,
// 1984).
type fair struct{ interp.FritschButland }

func fairedOffsets(u, deck, bilge, keel, sheer []float64) *offsets {
	o := &offsets{u: u}
	for _, c := range []struct {
		to     *fair
		shares []float64
	}{{&o.deck, deck}, {&o.bilge, bilge}, {&o.keel, keel}, {&o.sheer, sheer}} {
		if c.to.Fit(u, c.shares) != nil {
			panic("seabed: bad table of offsets")
		}
	}
	return o
}

// hold is an opening in the deck.
type hold struct {
	from, to float64 // u
	half     float64 // half width, share of the deck inside the bulwark
	floor    float64 // height, share of the depth
}

// smack is a wooden fishing vessel: full, with a transom and a raked stem.
var smack = fairedOffsets(
	[]float64{0, 0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95, 1},
	[]float64{0.70, 0.80, 0.93, 1, 1, 0.90, 0.62, 0.28, 0.03},
	[]float64{0.20, 0.42, 0.68, 0.86, 0.88, 0.68, 0.34, 0.10, 0.01},
	[]float64{0.30, 0.14, 0.03, 0, 0, 0, 0.02, 0.12, 0.45},
	[]float64{0.86, 0.83, 0.80, 0.78, 0.80, 0.86, 0.93, 0.98, 1},
)

// coaster is a steel cargo vessel: a box amidships with fine ends.
var coaster = fairedOffsets(
	[]float64{0, 0.04, 0.12, 0.25, 0.5, 0.75, 0.88, 0.95, 1},
	[]float64{0.66, 0.84, 0.98, 1, 1, 1, 0.78, 0.42, 0.03},
	[]float64{0.08, 0.36, 0.76, 0.97, 0.97, 0.93, 0.52, 0.20, 0.01},
	[]float64{0.50, 0.12, 0, 0, 0, 0, 0, 0.03, 0.30},
	[]float64{0.93, 0.89, 0.86, 0.84, 0.83, 0.85, 0.91, 0.97, 1},
)

// skiff is a rowing boat: a narrow transom, flared sides and a fine stem.
var skiff = fairedOffsets(
	[]float64{0, 0.1, 0.25, 0.45, 0.65, 0.82, 0.93, 1},
	[]float64{0.62, 0.78, 0.94, 1, 0.92, 0.64, 0.32, 0.04},
	[]float64{0.34, 0.52, 0.68, 0.73, 0.62, 0.36, 0.13, 0.01},
	[]float64{0.12, 0.05, 0, 0, 0, 0.04, 0.18, 0.5},
	[]float64{0.88, 0.83, 0.79, 0.78, 0.82, 0.89, 0.95, 1},
)

func (f *form) x(u float64) float64 { return (u - 0.5) * f.length }

// rail is the top of the starboard side at u.
func (f *form) rail(u float64) vec {
	o := f.offsets
	return vec{f.x(u), o.deck.Predict(u) * f.beam / 2, o.sheer.Predict(u) * f.depth}
}

// deckAt is the height of the deck at u.
func (f *form) deckAt(u float64) float64 { return f.rail(u).z - f.bulwark*f.depth }

// holdAt is the half width of the opening at u, and its floor.
func (f *form) holdAt(u, inside, deck float64) (half, floor float64, open bool) {
	for _, h := range f.holds {
		if u >= h.from && u <= h.to {
			return h.half * inside, h.floor * f.depth, true
		}
	}
	return 0.5 * inside, deck, false
}

// outline is the section at u, from the keel up the starboard side, across the
// deck and down the port side.
func (f *form) outline(u float64) []vec {
	o, rail := f.offsets, f.rail(u)
	keel := o.keel.Predict(u) * f.depth
	bilge := min(o.bilge.Predict(u)*f.beam/2, rail.y)
	inside := max(rail.y-f.side*f.beam, 0.6*rail.y)
	deck := max(rail.z-f.bulwark*f.depth, keel)
	half, floor, open := f.holdAt(u, inside, deck)
	lip, edge := deck, half
	if open && f.coaming > 0 {
		lip, edge = deck+f.coaming*f.depth, min(half+0.02*f.beam, inside)
	}
	starboard := []vec{
		{0, 0, keel}, {0, bilge, keel + f.turn*(rail.z-keel)}, rail, {0, inside, rail.z}, {0, inside, deck},
		{0, edge, deck}, {0, edge, lip}, {0, half, lip}, {0, half, max(floor, keel)},
	}
	all := slices.Clone(starboard)
	for _, v := range slices.Backward(starboard) {
		all = append(all, vec{0, -v.y, v.z})
	}
	return all
}

// loft draws the hull from u0 to u1 as it leans, about its own midships.
func (f *form) loft(p *pose, u0, u1 float64) *loft {
	const step, edge = 0.02, 0.0005 // u; the ends of holds are that steep
	stops := []float64{u0, u1}
	for u := math.Ceil(u0/step) * step; u < u1; u += step {
		stops = append(stops, u)
	}
	stops = append(stops, f.offsets.u...)
	for _, h := range f.holds {
		stops = append(stops, h.from-edge, h.from, h.to, h.to+edge)
	}
	slices.Sort(stops)
	var stations []float64
	var outlines [][]vec
	last := math.Inf(-1)
	for _, u := range stops {
		if u < u0 || u > u1 || u-last < edge/2 {
			continue
		}
		last = u
		stations = append(stations, f.x(u))
		outlines = append(outlines, lean(p, f.x(u), f.outline(u)))
	}
	return newLoft(stations, outlines)
}

// fit finds the beam and depth with which the bodies that draw makes are at most w
// wide and h high, and moves the pose so that it is centred and its lowest point
// lies at the base.
func fit(p *pose, w, h float64, draw func(beam, depth float64) []*loft) []*loft {
	measure := func(bodies []*loft) (y0, y1, low, high float64) {
		y0, y1, low, high = math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, b := range bodies {
			y0, y1, low, high = min(y0, b.rect.y0), max(y1, b.rect.y1), min(low, b.low), max(high, b.high)
		}
		return y0, y1, low, high
	}
	beam, depth := w, h
	for range 12 {
		y0, y1, low, high := measure(draw(beam, depth))
		beam *= between(math.Sqrt(w/(y1-y0)), 0.8, 1.25)
		depth *= between(math.Sqrt(h/(high-low)), 0.8, 1.25)
	}
	y0, y1, low, high := measure(draw(beam, depth))
	scale := min(w/(y1-y0), h/(high-low), 1)
	bodies := draw(scale*beam, scale*depth)
	y0, y1, low, _ = measure(bodies)
	p.at.y -= (y0 + y1) / 2
	p.at.z -= low
	return bodies
}
