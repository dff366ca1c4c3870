package passage

import (
	"math"

	"dryline/vessel/nav"
)

// exposure gathers what the instruments are exposed to.
func (p *Passage) exposure() nav.Truth {
	h, g, w := &p.hull, p.gear, &p.weather
	ax, ay, _ := p.hull.RidingAt(p.ex.Vessel.Antenna, p.ride)
	vx, vy := h.VelocityRiding(p.ex.Vessel.Antenna, p.ride)
	sin, cos := math.Sincos(h.Heading)
	fish := p.jittered(p.pose(), p.Now())
	return nav.Truth{
		InTheWay: overSchool(p.ex.Sonar.Effects.Schools, fish),
		VesselX:  h.X, VesselY: h.Y, AntennaX: ax, AntennaY: ay, VX: vx, VY: vy,
		Heading: h.Heading, YawRate: h.YawRate,
		Heave: p.ride.Heave, Pitch: p.ride.Pitch, Roll: p.ride.Roll,
		WaterAhead: (h.VX-w.CurrentX)*sin + (h.VY-w.CurrentY)*cos,
		WindX:      w.WindX, WindY: w.WindY, CableOut: g.CableOut,
		FishX: fish.X, FishY: fish.Y, FishDepth: fish.Depth(), FishAltitude: fish.Z - p.floor.HeightAt(g.X, g.Y),
		FishHeading: fish.Heading, FishPitch: fish.Pitch, FishRoll: fish.Roll, Convergence: p.convergence,
	}
}
