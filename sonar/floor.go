package sonar

import "dryline/seabed"

// Floor is the ground that a ping falls on. Several goroutines may ask it at once,
// each with a [Section] of its own.
type Floor interface {
	// Trace fills s with the floor under the ray from (x, y) in the direction of
	// the unit vector (ux, uy), at the ground ranges s.Steps.
	Trace(s *Section, x, y, ux, uy float64)
}

// Furnished is a Floor that tells the ground from what stands on it. A ping reads
// its ground along a few rays and what stands on it along as many as it takes to
// meet everything, see strips; of any other floor it sees what the rays meet.
type Furnished interface {
	Floor

	// TraceGround is Trace without what stands on the ground.
	TraceGround(s *Section, x, y, ux, uy float64)

	// FindFootprints lists what stands within a distance to either side of a ray.
	FindFootprints(list *seabed.Footprints, x, y, ux, uy, end, side float64)

	// Furnish makes f the furniture of a ray, of those of the things that it meets within n
	// samples of package lanes, heights over z.
	Furnish(f *seabed.Furniture, things []seabed.Footprint, x, y, ux, uy float64, n int, z float64)
}

// Section is the floor along one horizontal ray, in the vertical plane of the
// ray. It is kept for the next ray, with the memory it has.
type Section struct {
	Steps []float64 // ground ranges asked for, metres, ascending; not to be changed
	Fine  float64   // where an object stands, ranges are wanted as close as this; 0 wants none but Steps

	G      []float64       // ground ranges answered: Steps, which it may be, and what was added
	Z      []float64       // height of the surface at each, metres
	Drawn  bool            // Z has the sediments' micro-relief in it
	Slope  []float64       // rise along the ray of the ground without it; needed only then
	Class  []seabed.Class  // what the surface is made of
	Object []uint16        // 0 for the floor, else the number of the object
	Raised []seabed.Raised // parts clear of the floor, in no order; the ping puts them in order

	profile seabed.Profile // the memory of a Ground
}

// Ground is a world as the floor that pings fall on.
type Ground struct{ World *seabed.World }

// Trace implements [Floor].
func (g Ground) Trace(s *Section, x, y, ux, uy float64) {
	g.World.Trace(s.asked(), x, y, ux, uy)
	s.answer()
}

// TraceGround implements [Furnished].
func (g Ground) TraceGround(s *Section, x, y, ux, uy float64) {
	g.World.TraceGround(s.asked(), x, y, ux, uy)
	s.answer()
}

// FindFootprints implements [Furnished].
func (g Ground) FindFootprints(list *seabed.Footprints, x, y, ux, uy, end, side float64) {
	g.World.FindFootprints(list, x, y, ux, uy, end, side)
}

// Furnish implements [Furnished].
func (g Ground) Furnish(f *seabed.Furniture, things []seabed.Footprint, x, y, ux, uy float64, n int, z float64) {
	g.World.Furnish(f, things, x, y, ux, uy, n, z)
}

// asked is the section as a world is asked for it, answer takes what it says.
func (s *Section) asked() *seabed.Profile {
	s.profile.Steps, s.profile.Fine = s.Steps, s.Fine
	return &s.profile
}

func (s *Section) answer() {
	p := &s.profile
	s.G, s.Z, s.Class, s.Object, s.Raised = p.G, p.Z, p.Class, p.Object, p.Raised
	s.Drawn, s.Slope = p.Drawn, p.Slope
}
