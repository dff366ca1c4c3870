package sim

import (
	"math"

	"dryline/vessel/nav"
)

// measured is what the instruments are exposed to.
func (s *Session) measured() nav.Truth {
	h, g, w := &s.hull, s.gear, &s.weather
	ax, ay, _ := s.aboard(s.Exercise.Vessel.Antenna)
	vx, vy := h.VelocityAboard(s.Exercise.Vessel.Antenna, s.ride)
	sin, cos := math.Sincos(h.Heading)
	fish := s.restless(s.pose(), s.Now())
	return nav.Truth{
		InTheWay: inTheWay(s.Exercise.Sonar.Effects.Schools, fish),
		VesselX:  h.X, VesselY: h.Y, AntennaX: ax, AntennaY: ay, VX: vx, VY: vy,
		Heading: h.Heading, YawRate: h.YawRate,
		Heave: s.ride.Heave, Pitch: s.ride.Pitch, Roll: s.ride.Roll,
		WaterAhead: (h.VX-w.CurrentX)*sin + (h.VY-w.CurrentY)*cos,
		WindX:      w.WindX, WindY: w.WindY, CableOut: g.CableOut,
		FishX: fish.X, FishY: fish.Y, FishDepth: fish.Depth(), FishAltitude: fish.Z - s.world.HeightAt(g.X, g.Y),
		FishHeading: fish.Heading, FishPitch: fish.Pitch, FishRoll: fish.Roll, Convergence: s.convergence,
	}
}
