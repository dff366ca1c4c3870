package sonar

import "dryline/seabed"

// Floor is the ground that a ping falls on. Several goroutines may ask it at once,
// each with a [Section] of its own.
type Floor interface {
	// Trace fills s with the floor under the ray from (x, y) in the direction of
	// the unit vector (ux, uy), at the ground ranges s.Steps.
	Trace(s *Section, x, y, ux, uy float64)
}

// Section is the floor along one horizontal ray, in the vertical plane of the
// ray. It is kept for the next ray, with the memory it has.
type Section struct {
	Steps []float64 // ground ranges asked for, metres, ascending; not to be changed
	Fine  float64   // where an object stands, ranges are wanted as close as this; 0 wants none but Steps

	G      []float64       // ground ranges answered: Steps, which it may be, and what was added
	Z      []float64       // height of the surface at each, metres
	Class  []seabed.Class  // what the surface is made of
	Object []uint16        // 0 for the floor, else the number of the object
	Raised []seabed.Raised // parts clear of the floor, in no order; the ping puts them in order

	profile seabed.Profile // the memory of a Ground
}

// Ground is a world as the floor that pings fall on.
type Ground struct{ World *seabed.World }

// Trace implements [Floor].
func (g Ground) Trace(s *Section, x, y, ux, uy float64) {
	p := &s.profile
	p.Steps, p.Fine = s.Steps, s.Fine
	g.World.Trace(p, x, y, ux, uy)
	s.G, s.Z, s.Class, s.Object, s.Raised = p.G, p.Z, p.Class, p.Object, p.Raised
}
