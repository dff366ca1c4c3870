package seabed

import "math"

// Raised is where the vertical plane of a ray cuts something clear of the
// floor: a short piece of it.
type Raised struct {
	G      float64 // ground range, metres
	Z0, Z1 float64 // its lower and upper edge, metres
	Length float64 // ground range it covers, half of it on each side of G, metres
	Climb  float64 // of its middle from the near end to the far end, metres; part of Z1 - Z0
	Class  Class
	Object uint16 // as in Profile.Object
}

// capsule is a rod with round ends that clears the floor.
type capsule struct {
	a, b         vec
	joinA, joinB bool // another capsule goes on from that end
	radius       float64
	class        Class
	object       uint16 // number of the object it is part of
}

// plan is the upright box that holds the capsule.
func (r *capsule) plan() rect {
	return rect{
		min(r.a.x, r.b.x) - r.radius, min(r.a.y, r.b.y) - r.radius,
		max(r.a.x, r.b.x) + r.radius, max(r.a.y, r.b.y) + r.radius,
	}
}

// pieceLength is the longest stretch of ground range one piece may cover.
const pieceLength = 0.25

// cut appends the pieces of the rod in the vertical plane of a ray, between
// the ground ranges g0 and g1.
//
// The axis point that lies d from the plane contributes a circle of radius
// sqrt(r^2 - d^2). Along a piece d runs from da to db while the axis rises by
// rise per metre of d, so its upper edge is the largest of
//
//	z(d) + sqrt(r^2 - d^2) ,  which is at d = r rise / sqrt(1 + rise^2)
//
// or at the nearest end of the piece. Left out: how far the section reaches
// along the ray beyond its axis, at most one radius.
func (r *capsule) cut(dst []Raised, x, y, ux, uy, g0, g1 float64) []Raised {
	ga, da := (r.a.x-x)*ux+(r.a.y-y)*uy, (r.a.x-x)*uy-(r.a.y-y)*ux
	gb, db := (r.b.x-x)*ux+(r.b.y-y)*uy, (r.b.x-x)*uy-(r.b.y-y)*ux
	if min(da, db) > r.radius || max(da, db) < -r.radius ||
		max(ga, gb) < g0 || min(ga, gb) > g1 {
		return dst
	}
	// Past a joint the next capsule takes over: met by both, it would be there
	// twice.
	if (da < 0) == (db < 0) && max(math.Abs(da), math.Abs(db)) > r.radius {
		if math.Abs(da) < math.Abs(db) && r.joinA || math.Abs(db) < math.Abs(da) && r.joinB {
			return dst
		}
	}
	// The stretch t0..t1 of the axis within radius of the plane.
	t0, t1, rise := 0.0, 1.0, 0.0
	if math.Abs(db-da) > 1e-9 {
		s0, s1 := (-r.radius-da)/(db-da), (r.radius-da)/(db-da)
		t0, t1 = max(t0, min(s0, s1)), min(t1, max(s0, s1))
		rise = (r.b.z - r.a.z) / (db - da)
	}
	if t0 >= t1 {
		return dst
	}
	highest := r.radius * rise / math.Sqrt(1+rise*rise)
	pieces := max(1, int(math.Ceil(math.Abs((gb-ga)*(t1-t0))/pieceLength)))
	for i := range pieces {
		ta := t0 + (t1-t0)*float64(i)/float64(pieces)
		tb := t0 + (t1-t0)*float64(i+1)/float64(pieces)
		piece := Raised{G: ga + (ta+tb)/2*(gb-ga), Class: r.class, Object: r.object}
		if piece.G < g0 || piece.G > g1 {
			continue
		}
		piece.Length, piece.Climb = (tb-ta)*(gb-ga), (tb-ta)*(r.b.z-r.a.z)
		if piece.Length < 0 {
			piece.Length, piece.Climb = -piece.Length, -piece.Climb
		}
		piece.Z1 = max(r.edge(ta, da, db, 1), r.edge(tb, da, db, 1))
		piece.Z0 = min(r.edge(ta, da, db, -1), r.edge(tb, da, db, -1))
		if rise != 0 {
			piece.Z1 = max(piece.Z1, r.edge(between((highest-da)/(db-da), ta, tb), da, db, 1))
			piece.Z0 = min(piece.Z0, r.edge(between((-highest-da)/(db-da), ta, tb), da, db, -1))
		} else { // level: widest where the axis is nearest to the plane
			nearest := ta
			if db != da {
				nearest = between(-da/(db-da), ta, tb)
			}
			piece.Z1 = max(piece.Z1, r.edge(nearest, da, db, 1))
			piece.Z0 = min(piece.Z0, r.edge(nearest, da, db, -1))
		}
		dst = append(dst, piece)
	}
	return dst
}

// edge is the height of the upper (side 1) or lower (-1) edge of the section
// at the share t of the axis.
func (r *capsule) edge(t, da, db, side float64) float64 {
	d := da + t*(db-da)
	return r.a.z + t*(r.b.z-r.a.z) + side*math.Sqrt(max(r.radius*r.radius-d*d, 0))
}

func between(t, lo, hi float64) float64 { return min(max(t, lo), hi) }
