package sim

import "dryline/vessel/nav"

// measured is what the instruments are exposed to.
func (s *Session) measured() nav.Truth {
	ax, ay := s.hull.At(s.Exercise.Vessel.Antenna)
	vx, vy := s.hull.VelocityAt(s.Exercise.Vessel.Antenna)
	g := s.gear
	fish := s.restless(s.pose(), s.Now())
	return nav.Truth{
		AntennaX: ax, AntennaY: ay, VX: vx, VY: vy,
		Heading: s.hull.Heading, YawRate: s.hull.YawRate, CableOut: g.CableOut,
		FishDepth: -fish.Z, FishAltitude: fish.Z - s.world.HeightAt(g.X, g.Y),
		FishHeading: fish.Heading, FishPitch: fish.Pitch, Convergence: s.convergence,
	}
}
