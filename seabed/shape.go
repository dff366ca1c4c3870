package seabed

// shape is an object put together: solids on the floor and rods clear of it,
// in the object's frame (x towards the bow, y to starboard, z up from its
// base, metres).
type shape struct {
	parts []part
	rods  []rod
}

// part is a solid with its own place, turn and material within a shape.
type part struct {
	solid
	x, y, z float64
	yaw     float64 // from the bow towards starboard, radians
	tilt    float64 // rise along the solid's own x
	class   Class
	lies    bool // z counts from the floor under it, not from the shape's base
	loose   bool // wreckage that may lie outside the object's measures
}

// rod is a capsule of a shape.
type rod struct {
	capsule
	lies  bool // both ends count from the floor under them
	loose bool
}

// add puts a solid at (x, y, z), turned by yaw.
func (s *shape) add(body solid, class Class, x, y, z, yaw float64) *part {
	s.parts = append(s.parts, part{solid: body, x: x, y: y, z: z, yaw: yaw, class: class})
	return &s.parts[len(s.parts)-1]
}

// addPosed puts bodies whose outlines have been leaned by p where p says, as one.
func (s *shape) addPosed(class Class, p *pose, bodies ...*loft) *part {
	j := &joined{lofts: bodies, rect: nowhere()}
	for _, b := range bodies {
		j.rect.include(b.rect.x0, b.rect.y0)
		j.rect.include(b.rect.x1, b.rect.y1)
	}
	return s.add(j, class, p.at.x, p.at.y, p.at.z, p.yaw)
}

// rod joins a and b.
func (s *shape) rod(class Class, radius float64, a, b vec) *rod {
	s.rods = append(s.rods, rod{capsule: capsule{a: a, b: b, radius: radius, class: class}})
	return &s.rods[len(s.rods)-1]
}

// line joins the points in turn by rods.
func (s *shape) line(class Class, radius float64, points ...vec) {
	for i := 1; i < len(points); i++ {
		r := s.rod(class, radius, points[i-1], points[i])
		r.joinA, r.joinB = i > 1, i+1 < len(points)
	}
}
