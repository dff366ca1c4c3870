package seabed

import "math"

// vec is a point of a shape: x towards the bow, y to starboard, z up, metres.
type vec struct{ x, y, z float64 }

func (a vec) plus(b vec) vec { return vec{a.x + b.x, a.y + b.y, a.z + b.z} }

// towards is the point a share t of the way from a to b.
func (a vec) towards(b vec, t float64) vec {
	return vec{a.x + t*(b.x-a.x), a.y + t*(b.y-a.y), a.z + t*(b.z-a.z)}
}

// pose is how a body lies: heeled about its keel (starboard side down
// positive), trimmed (bow up positive), turned from the bow to starboard, and
// moved. Trim shears rather than turns, which keeps x: good for small angles.
type pose struct {
	at              vec
	yaw, heel, trim float64
}

// leaned gives what v becomes by heel and trim alone.
func (p *pose) leaned(v vec) vec {
	s, c := math.Sincos(p.heel)
	return vec{v.x, v.y*c + v.z*s, v.z*c - v.y*s + v.x*math.Tan(p.trim)}
}

// apply gives the place of the body's point v in the shape.
func (p *pose) apply(v vec) vec {
	v = p.leaned(v)
	s, c := math.Sincos(p.yaw)
	return vec{p.at.x + v.x*c - v.y*s, p.at.y + v.x*s + v.y*c, p.at.z + v.z}
}
