package sonar

import (
	"math"
	"slices"

	"dryline/seabed"
	"dryline/sonar/lanes"
)

// strips are how a ping sees what stands on the ground. The few rays of its fan
// read ground, which hardly changes from one to the next; a post or a rope
// between two of them would be missed. So the ground is read without what stands
// on it, and the part of the beam in which something stands is cut into strips,
// along the edges of thin things, each strip with a ray of its own through its
// middle. On the ground of its cell, furnished with what that ray meets, a strip is
// walked from before the first thing to where the last shadow ends; then the bare
// ground that the cell has already given for that stretch is taken away again:
//
//	cell = w bare + sum over strips of w_s (furnished - (1 - fill) bare)
//
// with w the share of the beam in the cell or strip, exactly. fill is what of a
// shadow is filled by sound that has been scattered more than once.
type strips struct {
	near  seabed.Footprints
	spans []places
	cuts  []float64
	list  []band
	next  int // of the list

	things    []seabed.Footprint // that the strip may meet
	furniture seabed.Furniture   // that it does
	samples   int                // of package lanes, as far as the record goes
	corners   []seabed.Corner
	turns     []int // samples of the furniture before which its surface turns
	factors   []float64
	section   Section
	horizon   []float64 // of the ground along the ray of the cell, where it is known
	known     bool
	through   []float64

	finer float64 // for comparison: strips are so many times as narrow; 0 for as they are

	shares knownShares
}

// places are those between which something stands, how wide strips may be there, and whether they may for
// everything else there too.
type places struct {
	from, to float64
	widest   float64
	large    bool
}

// band is the part of the beam that a strip looks at: between two places.
type band struct{ from, to float64 }

// gaze is how one side of a ping looks at the floor: along a line abreast of
// the fish that drifts ahead as it goes.
type gaze struct {
	x, y, z  float64
	sin, cos float64 // of the heading
	heading  float64
	ahead    float64 // metres for each metre of range
	side     Side
}

// along is the ray at a place of a fan, from a point in a direction.
func (l *gaze) along(f *fan, place float64) (x, y, ux, uy float64) {
	off, slope := f.line(place)
	ux, uy = math.Sincos(bearingAcross(l.heading, slope+l.ahead, l.side))
	return l.x + off*l.sin, l.y + off*l.cos, ux, uy
}

const (
	// Strips in the main lobe are at most a share perThickness of the thinnest thing there wide, within
	// narrowest and widest places: they are for edges that lie askew and tops that are round. Over
	// something large, which one strip sees much as the next does and which takes long to walk over, they are
	// as wide as any. Beyond mainLobe places, where two ways half the power is left, they widen with the square
	// of how far out they begin, as little is heard there.
	narrowest, widest = 0.08, 0.3
	perThickness      = 1. / 40
	mainLobe, outward = 0.5, 8.0
	leastStrip        = 1e-6
	// large is how far such a thing reaches along the ray, metres; or it goes across all of the beam,
	// so many places, and along the ray at most half as far.
	large, largeAcross = 6.0, 10.0
	// thinThing is how many places something takes at most to be cut along in any company.
	thinThing = 0.16
	thinnest  = 0.01 // of a strip that something long is cut into, in places
	// fewThings have all their edges cut along; of more than that, thin ones alone.
	fewThings = 6
	mostCuts  = 12 // of something long
)

// shadowFill is the share that comes out of the shadow of a thing over what its ground
// would answer: sound scattered from ground or thing to ground and back. About
// -26 dB, our own choice.
const shadowFill = 0.0025

// lay cuts the beam into strips where something stands.
func (st *strips) lay(e *Engine, floor Furnished, l *gaze) {
	st.list, st.spans, st.next = st.list[:0], st.spans[:0], 0
	f := &e.fan
	end := float64(e.spec.Samples) * e.bin
	ux, uy := math.Sincos(bearingAcross(l.heading, l.ahead, l.side))
	floor.FindFootprints(&st.near, l.x, l.y, ux, uy, end, f.side)
	st.samples = lanes.Width * lanes.Blocks(int(math.Ceil(end*lanes.PerMetre)))
	list := st.near.List
	if len(list) == 0 {
		return
	}
	st.cuts = append(st.cuts[:0], f.edges[1:len(f.edges)-1]...)
	for i := range list {
		s := &list[i]
		if l.side == Port { // to the left of the ray is astern
			s.Y0, s.Y1 = -s.Y1, -s.Y0
		}
		span, thin := f.places(s, end)
		st.spans = append(st.spans, span)
		if from, to := span.from, span.to; from < to && (len(list) <= fewThings || thin < thinThing) {
			n := min(math.Ceil((to-from)/max(thin, thinnest)), mostCuts)
			for k := range int(n) {
				st.cuts = append(st.cuts, from+(to-from)*float64(k)/n)
			}
			st.cuts = append(st.cuts, to)
		}
	}
	st.cuts = append(st.cuts, -f.last, f.last)
	slices.Sort(st.cuts)
	for i := 1; i < len(st.cuts); i++ {
		from, to := st.cuts[i-1], st.cuts[i]
		st.divide(from, to)
	}
}

// divide cuts what lies between two places into strips, where something stands.
func (st *strips) divide(from, to float64) {
	limit := st.widest(from, to)
	a, b, mirrored := from, to, to <= 0
	if mirrored {
		a, b = -to, -from
	}
	begun := len(st.list)
	for a < b-leastStrip {
		end := b
		if a < mainLobe-leastStrip {
			if a >= 0 && b > 1.25*mainLobe { // else in the middle, or ends about with the lobe
				end = mainLobe
			}
			end = a + (end-a)/math.Ceil((end-a)/limit-1e-9)
		} else if wide := limit * outward * a * a; b-a > 1.25*wide {
			end = a + wide
		}
		s := band{a, end}
		if mirrored {
			s = band{-end, -a}
		}
		if st.occupied((s.from + s.to) / 2) {
			st.list = append(st.list, s)
		}
		a = end
	}
	if mirrored {
		slices.Reverse(st.list[begun:])
	}
}

// places are those between which something stands, and how many of them it takes
// at one range. What is seen half way along stands for all of it, so that it gets
// its own share and no more, unless it is long and lies so far off the axis that a
// ray comes in at one side of it and out at the other.
func (f *fan) places(s *seabed.Footprint, end float64) (span places, thin float64) {
	g0, g1 := max(s.G0, 0), min(s.G1, end)
	near, middle, far := f.width(g0), f.width((g0+g1)/2), f.width(g1)
	across := s.Y1 - s.Y0
	thin = across / middle
	limit := min(max(perThickness*s.Thick/middle, narrowest), widest)
	isLarge := s.G1-s.G0 > large || thin > largeAcross && s.G1-s.G0 < across/2
	if isLarge {
		limit = widest
	}
	span = places{s.Y0 / middle, s.Y1 / middle, limit, isLarge}
	if drift := math.Abs(s.Y0+s.Y1) / 2 * math.Abs(1/near-1/far); drift > thin/2 {
		span = places{min(s.Y0/near, s.Y0/far), max(s.Y1/near, s.Y1/far), limit, isLarge}
	}
	return places{max(span.from, -f.last), min(span.to, f.last), limit, isLarge}, thin
}

// widest is the most that a strip between two places is wide.
func (st *strips) widest(from, to float64) float64 {
	limit := widest
	for _, s := range st.spans {
		if s.from < to && s.to > from {
			if s.large {
				limit = widest
				break
			}
			limit = min(limit, s.widest)
		}
	}
	if st.finer > 0 {
		return limit / st.finer
	}
	return limit
}

// meet finds the things at a place.
func (st *strips) meet(place float64) {
	st.things = st.things[:0]
	for i, span := range st.spans {
		if span.from <= place && place <= span.to {
			st.things = append(st.things, st.near.List[i])
		}
	}
}

// apart is how far from the others, and from their shadow, something stands along the ray that is walked
// over apart from them, metres.
const apart = 0.5

// together is how many of the things, which are in order, stand with the first or no farther out than a
// ground range.
func together(things []seabed.Footprint, reach float64) (n int) {
	for n < len(things) && (n == 0 || things[n].G0 < reach+apart) {
		reach = max(reach, things[n].G1)
		n++
	}
	return n
}

// occupied reports whether something stands at a place.
func (st *strips) occupied(place float64) bool {
	for _, s := range st.spans {
		if s.from <= place && place <= s.to {
			return true
		}
	}
	return false
}
