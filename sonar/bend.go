package sonar

import (
	"math"
	"slices"
)

// bend is how the water's layers bend the sound from a fish at one depth: what
// to add to straight-line geometry for a point at a ground range and a depth.
//
// A ray keeps Snell's constant: cos(theta)/c is the same at every depth (theta
// its grazing angle), and where c changes linearly it is an arc of a circle
// (Jensen, Kuperman, Porter and Schmidt, Computational Ocean Acoustics, 2011,
// chapter 3). Ground range and time between two depths are therefore closed
// forms, see passage, and the ray that reaches a given point is found by solving
// for its angle. The tests hold this against rays traced step by step.
//
// Of several rays that reach a point the one launched nearest to its side
// counts: straight there, or else by way of the other side, turned back on
// ever longer ways. Where no ray arrives, nothing is lit. Left out: what
// focusing does to the level, second arrivals, and rays that come by the surface.
//
// Corrections are kept at even ground ranges and depths. A row is worked out when
// it is first asked for, as a floor lies in a few of them only.
type bend struct {
	profile   profile
	ways      passages
	depth     float64 // of the fish
	perMetre  float64 // columns per metre of ground range
	reference float64 // the sound speed that turns time into slant range
	rows      []bendRow
}

// bendRow is the corrections at one depth, by ground range.
type bendRow struct {
	known bool
	at    []bent
}

// bent is the correction at one point.
type bent struct {
	launch float32 // to the tangent of the launch elevation
	arrive float32 // to the tangent of the arrival elevation
	excess float32 // to the slant range, by the reference sound speed, metres
}

const (
	bendColumns = 97
	rowStep     = 0.5  // metres of depth between rows
	dark        = -1e6 // a launch correction that no point rises above
)

// begin readies the bend for a fish depth, in the memory it has. end is the
// slant range recorded and reference the sound speed that turns time into range.
func (b *bend) begin(p profile, depth, end, reference float64) {
	b.profile, b.depth, b.reference = p, depth, reference
	b.perMetre = (bendColumns - 1) / end
	n := int((depth+end)/rowStep) + 2 // nothing deeper answers in time
	b.rows = slices.Grow(b.rows[:cap(b.rows)], max(n-cap(b.rows), 0))[:n]
	for j := range b.rows {
		b.rows[j].known = false
	}
}

// row is the corrections at the depth of a row.
func (b *bend) row(j int) []bent {
	r := &b.rows[j]
	if !r.known {
		if r.at == nil {
			r.at = make([]bent, bendColumns)
		}
		b.fill(r.at, float64(j)*rowStep)
		r.known = true
	}
	return r.at
}

// fill works out the corrections at a depth.
func (b *bend) fill(row []bent, depth float64) {
	drop := depth - b.depth
	b.ways.lay(b.profile, b.depth, depth)
	u := math.Inf(1)
	for i := range row {
		g := max(float64(i)/b.perMetre, 0.01)
		var way *passage
		if way, u = b.ways.reach(g, u); way == nil {
			row[i] = bent{}
			if math.Abs(drop) >= 1.5*rowStep { // else it is the level ray that is missing, not the sound
				row[i].launch = dark
			}
			continue
		}
		launch, arrive := way.tangents(u)
		straight := -drop / g
		row[i] = bent{
			launch: float32(launch - straight),
			arrive: float32(arrive - straight),
			excess: float32(way.time(u)*b.reference - math.Hypot(g, drop)),
		}
	}
}

// at interpolates the corrections.
func (b *bend) at(g, depth float64) bent {
	u := min(max(g*b.perMetre, 0), bendColumns-1-1e-6)
	v := min(max(depth/rowStep, 0), float64(len(b.rows)-1)-1e-6)
	i, j := int(u), int(v)
	fu, fv := float32(u-float64(i)), float32(v-float64(j))
	upper, lower := b.row(j)[i:i+2], b.row(j + 1)[i:i+2]
	p, q, r, s := &upper[0], &upper[1], &lower[0], &lower[1]
	mix := func(a, b, c, d float32) float32 {
		low, high := a+fu*(b-a), c+fu*(d-c)
		return low + fv*(high-low)
	}
	return bent{
		mix(p.launch, q.launch, r.launch, s.launch),
		mix(p.arrive, q.arrive, r.arrive, s.arrive),
		mix(p.excess, q.excess, r.excess, s.excess),
	}
}

const (
	bendDepth = 0.1 // metres of fish depth between bends
	bendsKept = 16  // by a workspace: more than a fish heaves through
)

// bends keeps the bends of the fish depths last asked for, for one goroutine. A
// depth has one place, whose memory goes to the next depth that has the same.
type bends [bendsKept]struct {
	bend
	key   int
	known bool
}

// of returns the bend for a fish depth, nil in water without layers. It depends
// on the depth alone, to the nearest step.
func (s *bends) of(e *Engine, depth float64) *bend {
	if len(e.profile) == 0 {
		return nil
	}
	key := int(math.Round(max(depth, 0) / bendDepth))
	b := &s[key%bendsKept]
	if !b.known || b.key != key {
		b.begin(e.profile, float64(key)*bendDepth, float64(e.spec.Samples)*e.bin, e.soundSpeed)
		b.key, b.known = key, true
	}
	return &b.bend
}
