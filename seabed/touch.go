package seabed

import "math"

// Touch says what a ball of some radius about a point touches: the number of
// an object, counted as in [Profile.Object], or 0 for the floor itself. A ball
// inside an object touches it.
func (w *World) Touch(x, y, z, radius float64) (object uint16, touched bool) {
	bottom := w.floor(x, y)
	if z-radius <= bottom {
		touched = true
	}
	// Everything whose box the ball may reach: the ray is as long as the ball is
	// wide, both ways along both axes.
	var found [32]thing
	things := w.tree.cross(found[:0], x, y, 1, 0, -radius, radius)
	things = w.tree.cross(things, x, y, 0, 1, -radius, radius)
	top := bottom
	for _, t := range things {
		if t < 0 {
			rod := &w.rods[^t]
			if rod.distance(vec{x, y, z}) <= rod.radius+radius {
				return rod.object, true
			}
			continue
		}
		part := &w.parts[t]
		if h, ok := part.topAt(x, y); ok && h > top && z-radius <= h {
			object, top, touched = part.object, h, true
		}
	}
	return object, touched
}

// distance is how far a point is from the axis of the rod, metres.
func (r *capsule) distance(p vec) float64 {
	d := vec{r.b.x - r.a.x, r.b.y - r.a.y, r.b.z - r.a.z}
	t := 0.0
	if n := d.x*d.x + d.y*d.y + d.z*d.z; n > 0 {
		t = between(((p.x-r.a.x)*d.x+(p.y-r.a.y)*d.y+(p.z-r.a.z)*d.z)/n, 0, 1)
	}
	q := r.a.towards(r.b, t)
	dx, dy, dz := p.x-q.x, p.y-q.y, p.z-q.z
	return math.Sqrt(dx*dx + dy*dy + dz*dz)
}
