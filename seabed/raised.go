package seabed

import "math"

// Raised is where the vertical plane of a ray cuts something clear of the
// floor: a short piece of it.
type Raised struct {
	G      float64 // ground range, metres
	Z0, Z1 float64 // its lower and upper edge, metres
	Class  Class
	Object uint16 // index of the object plus one
}

// pieceLength is the longest stretch of ground range one piece may cover.
const pieceLength = 0.25

// cut appends the pieces of the rod in the vertical plane of a ray, between
// the ground ranges g0 and g1.
//
// The rod is a capsule: at a point of its axis that lies d from the plane the
// section reaches sqrt(radius^2 - d^2) around the axis. Left out: the round
// ends seen end-on.
func (r *capsule) cut(dst []Raised, x, y, ux, uy, g0, g1 float64, object uint16) []Raised {
	ga, da := (r.ax-x)*ux+(r.ay-y)*uy, (r.ax-x)*uy-(r.ay-y)*ux
	gb, db := (r.bx-x)*ux+(r.by-y)*uy, (r.bx-x)*uy-(r.by-y)*ux
	if min(da, db) > r.radius || max(da, db) < -r.radius ||
		max(ga, gb) < g0 || min(ga, gb) > g1 {
		return dst
	}
	// The stretch t0..t1 of the axis within radius of the plane.
	t0, t1 := 0.0, 1.0
	if math.Abs(db-da) > 1e-9 {
		s0, s1 := (-r.radius-da)/(db-da), (r.radius-da)/(db-da)
		t0, t1 = max(t0, min(s0, s1)), min(t1, max(s0, s1))
	}
	if t0 >= t1 {
		return dst
	}
	length := math.Abs((gb - ga) * (t1 - t0))
	pieces := max(1, int(math.Ceil(length/pieceLength)))
	for i := range pieces {
		ta := t0 + (t1-t0)*float64(i)/float64(pieces)
		tb := t0 + (t1-t0)*float64(i+1)/float64(pieces)
		t := (ta + tb) / 2
		d := da + t*(db-da)
		h := math.Sqrt(max(r.radius*r.radius-d*d, 0))
		za, zb := r.az+ta*(r.bz-r.az), r.az+tb*(r.bz-r.az)
		piece := Raised{
			G: ga + t*(gb-ga), Z0: min(za, zb) - h, Z1: max(za, zb) + h,
			Class: r.class, Object: object,
		}
		if piece.G >= g0 && piece.G <= g1 {
			dst = append(dst, piece)
		}
	}
	return dst
}
