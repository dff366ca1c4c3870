package seabed

import (
	"math"
	"slices"
)

// Standing is something that stands on a stretch of ground, or clears it, by its
// bounds in plan: along a ray and to its left, metres. One object may be several.
type Standing struct {
	G0, G1 float64
	Y0, Y1 float64
	thing  thing
}

// Standings holds what stands near a ray. It is kept for the next ray, with the
// memory it has.
type Standings struct {
	List  []Standing
	found []thing
}

// FindStanding lists what stands within a distance to either side of the ray
// from (x, y) along the unit vector (ux, uy), out to a ground range, in no order
// but the same every time.
func (w *World) FindStanding(list *Standings, x, y, ux, uy, end, side float64) {
	list.List = list.List[:0]
	list.found = w.tree.near(list.found[:0], x, y, ux, uy, 0, end, side)
	for _, t := range list.found {
		s := Standing{G0: math.Inf(1), G1: math.Inf(-1), Y0: math.Inf(1), Y1: math.Inf(-1), thing: t}
		include := func(px, py, radius float64) {
			dx, dy := px-x, py-y
			g, l := dx*ux+dy*uy, dy*ux-dx*uy
			s.G0, s.G1 = min(s.G0, g-radius), max(s.G1, g+radius)
			s.Y0, s.Y1 = min(s.Y0, l-radius), max(s.Y1, l+radius)
		}
		if t < 0 {
			r := &w.rods[^t]
			include(r.a.x, r.a.y, r.radius)
			include(r.b.x, r.b.y, r.radius)
		} else {
			p := &w.parts[t]
			for _, bx := range [...]float64{p.box.x0, p.box.x1} {
				for _, by := range [...]float64{p.box.y0, p.box.y1} {
					include(p.x+bx*p.sin+by*p.cos, p.y+bx*p.cos-by*p.sin, 0)
				}
			}
		}
		if s.G1 > 0 && s.G0 < end && s.Y1 > -side && s.Y0 < side {
			list.List = append(list.List, s)
		}
	}
}

// Furnish fills p as [World.Trace] would with things that stand on ground already
// traced, along a ray close by: z, slope and class are of the ground at p.Steps.
// Ranges are added at both sides of everything crossed and between them, so that
// nothing is too thin to be met.
func (w *World) Furnish(p *Profile, things []Standing, z, slope []float64, class []Class, x, y, ux, uy float64) {
	p.G, p.Raised, p.crossed = p.Steps, p.Raised[:0], p.crossed[:0]
	n := len(p.Steps)
	if n == 0 {
		p.grow(0)
		return
	}
	for i := range things {
		w.meet(p, things[i].thing, x, y, ux, uy, p.Steps[0], p.Steps[n-1])
	}
	p.sharpen()
	p.grow(0)
	i := 0
	for k, g := range p.G {
		for i+2 < n && p.Steps[i+1] <= g {
			i++
		}
		if n == 1 {
			p.Z[k], p.Slope[k], p.Class[k] = z[0], slope[0], class[0]
			continue
		}
		f := (g - p.Steps[i]) / (p.Steps[i+1] - p.Steps[i])
		p.Z[k] = z[i] + f*(z[i+1]-z[i])
		p.Slope[k] = slope[i] + f*(slope[i+1]-slope[i])
		p.Class[k] = class[i+1]
		if g == p.Steps[i] {
			p.Class[k] = class[i]
		}
	}
	clear(p.Object)
	w.traceObjects(p, x, y, ux, uy)
}

// edge is how close to the side of a thing, outside and in, the ground range lies
// at which it is read, metres.
const edge = 2e-4

// fewest is how many ranges apart the two edges of a thing are at least: enough for a
// round top.
const fewest = 8

// sharpen sets G: the steps asked for, both edges of everything crossed, and
// ranges no farther apart than Fine between them.
func (p *Profile) sharpen() {
	if len(p.crossed) == 0 {
		return
	}
	p.added = p.added[:0]
	first, last := p.Steps[0], p.Steps[len(p.Steps)-1]
	for _, c := range p.crossed {
		n := fewest
		if p.Fine > 0 {
			n = max(n, int(math.Ceil((c.to-c.from)*math.Pi/2/p.Fine)))
		}
		add := func(g float64) {
			if g > first && g < last {
				p.added = append(p.added, g)
			}
		}
		add(c.from - edge)
		inset := min(edge, (c.to-c.from)/4)
		for k := range n + 1 {
			// Closest at the edges, where round things are steep.
			f := (1 - math.Cos(math.Pi*float64(k)/float64(n))) / 2
			add(c.from + inset + (c.to-c.from-2*inset)*f)
		}
		add(c.to + edge)
	}
	slices.Sort(p.added)
	p.merged = p.merged[:0]
	next := 0
	for _, g := range p.Steps {
		for ; next < len(p.added) && p.added[next] < g; next++ {
			p.merged = append(p.merged, p.added[next])
		}
		p.merged = append(p.merged, g)
	}
	// Nothing is added beyond the last step.
	const least = 1e-6
	p.merged = slices.CompactFunc(p.merged, func(a, b float64) bool { return math.Abs(b-a) < least })
	p.G = p.merged
}
