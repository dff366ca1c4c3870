package seabed

import (
	"cmp"
	"math"
	"slices"
)

// Footprint is something that stands on a stretch of ground, or clears it, by its
// bounds in plan: along a ray and to its left, metres. One object may be several.
type Footprint struct {
	G0, G1 float64
	Y0, Y1 float64
	Thick  float64 // the lesser of its measures in plan, metres
	thing  thing
}

// Footprints holds what stands near a ray. It is kept for the next ray, with the
// memory it has.
type Footprints struct {
	List  []Footprint
	found []thing
}

// FindFootprints lists what stands within a distance to either side of the ray
// from (x, y) along the unit vector (ux, uy), out to a ground range, the nearest first.
func (w *World) FindFootprints(list *Footprints, x, y, ux, uy, end, side float64) {
	list.List = list.List[:0]
	list.found = w.tree.near(list.found[:0], x, y, ux, uy, 0, end, side)
	for _, t := range list.found {
		s := Footprint{G0: math.Inf(1), G1: math.Inf(-1), Y0: math.Inf(1), Y1: math.Inf(-1), thing: t}
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
			s.Thick = 2 * r.radius
		} else {
			p := &w.parts[t]
			for _, bx := range [...]float64{p.box.x0, p.box.x1} {
				for _, by := range [...]float64{p.box.y0, p.box.y1} {
					include(p.x+bx*p.sin+by*p.cos, p.y+bx*p.cos-by*p.sin, 0)
				}
			}
			s.Thick = min(p.box.x1-p.box.x0, p.box.y1-p.box.y0)
		}
		if s.G1 > 0 && s.G0 < end && s.Y1 > -side && s.Y0 < side {
			list.List = append(list.List, s)
		}
	}
	slices.SortFunc(list.List, func(a, b Footprint) int {
		return cmp.Or(cmp.Compare(a.G0, b.G0), cmp.Compare(a.thing, b.thing))
	})
}
