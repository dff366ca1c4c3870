package sonar

import (
	"math"
	"slices"
)

// refraction corrects straight-line geometry for the bending of sound in the
// water's layers, from a fish at one depth to a point at a ground range and a
// depth.
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
type refraction struct {
	profile   profile
	ways      passages
	depth     float64 // of the fish
	perMetre  float64 // columns per metre of ground range
	reference float64 // the sound speed that turns time into slant range
	rows      []refractionRow
}

// refractionRow holds the corrections at one depth, by ground range.
type refractionRow struct {
	known bool
	at    []bending
}

// bending is the correction for one point.
type bending struct {
	launch float32 // to the tangent of the launch elevation
	arrive float32 // to the tangent of the arrival elevation
	excess float32 // to the slant range, by the reference sound speed, metres
}

const (
	refractionColumns = 97
	rowStep           = 0.5  // metres of depth between rows
	dark              = -1e6 // a launch correction that no point rises above
)

// begin readies the corrections for a fish depth, in the memory it has. end is the
// slant range recorded and reference the sound speed that turns time into range.
func (r *refraction) begin(p profile, depth, end, reference float64) {
	r.profile, r.depth, r.reference = p, depth, reference
	r.perMetre = (refractionColumns - 1) / end
	n := int((depth+end)/rowStep) + 2 // nothing deeper answers in time
	r.rows = slices.Grow(r.rows[:cap(r.rows)], max(n-cap(r.rows), 0))[:n]
	for j := range r.rows {
		r.rows[j].known = false
	}
}

// row returns the corrections at the depth of a row.
func (r *refraction) row(j int) []bending {
	row := &r.rows[j]
	if !row.known {
		if row.at == nil {
			row.at = make([]bending, refractionColumns)
		}
		r.fill(row.at, float64(j)*rowStep)
		row.known = true
	}
	return row.at
}

// fill works out the corrections at a depth.
func (r *refraction) fill(row []bending, depth float64) {
	drop := depth - r.depth
	r.ways.lay(r.profile, r.depth, depth)
	u := math.Inf(1)
	for i := range row {
		g := max(float64(i)/r.perMetre, 0.01)
		var way *passage
		if way, u = r.ways.reach(g, u); way == nil {
			row[i] = bending{}
			if math.Abs(drop) >= 1.5*rowStep { // else it is the level ray that is missing, not the sound
				row[i].launch = dark
			}
			continue
		}
		launch, arrive := way.tangents(u)
		straight := -drop / g
		row[i] = bending{
			launch: float32(launch - straight),
			arrive: float32(arrive - straight),
			excess: float32(way.time(u)*r.reference - math.Hypot(g, drop)),
		}
	}
}

// at interpolates the corrections.
func (r *refraction) at(g, depth float64) bending {
	u := min(max(g*r.perMetre, 0), refractionColumns-1-1e-6)
	v := min(max(depth/rowStep, 0), float64(len(r.rows)-1)-1e-6)
	i, j := int(u), int(v)
	fu, fv := float32(u-float64(i)), float32(v-float64(j))
	upper, lower := r.row(j)[i:i+2], r.row(j + 1)[i:i+2]
	p, q, s, t := &upper[0], &upper[1], &lower[0], &lower[1]
	mix := func(a, b, c, d float32) float32 {
		low, high := a+fu*(b-a), c+fu*(d-c)
		return low + fv*(high-low)
	}
	return bending{
		mix(p.launch, q.launch, s.launch, t.launch),
		mix(p.arrive, q.arrive, s.arrive, t.arrive),
		mix(p.excess, q.excess, s.excess, t.excess),
	}
}

const (
	refractionStep  = 0.1 // metres of fish depth between one and the next
	refractionsKept = 16  // by a workspace: more than a fish heaves through
)

// refractions keeps those of the fish depths last asked for, for one goroutine. A
// depth has one place, whose memory goes to the next depth that has the same.
type refractions [refractionsKept]struct {
	refraction
	key   int
	known bool
}

// of returns the refraction from a fish depth, nil in water without layers. It
// depends on the depth alone, to the nearest step.
func (s *refractions) of(e *Engine, depth float64) *refraction {
	if len(e.profile) == 0 {
		return nil
	}
	key := int(math.Round(max(depth, 0) / refractionStep))
	r := &s[key%refractionsKept]
	if !r.known || r.key != key {
		r.begin(e.profile, float64(key)*refractionStep, float64(e.spec.Samples)*e.bin, e.soundSpeed)
		r.key, r.known = key, true
	}
	return &r.refraction
}
