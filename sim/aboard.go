package sim

import (
	"math"

	"dryline/vessel"
)

// aboard is where a point on board is as the vessel moves in the waves, metres:
// on the grid, and above still water.
func (s *Session) aboard(o vessel.Offset) (x, y, z float64) {
	// Bow up carries what stands high aft, starboard down carries it to
	// starboard.
	leaning := vessel.Offset{
		Forward:   o.Forward - o.Up*math.Sin(s.ride.Pitch),
		Starboard: o.Starboard + o.Up*math.Sin(s.ride.Roll),
	}
	x, y = s.hull.At(leaning)
	return x, y, o.Up + s.ride.PointHeave(o.Forward, o.Starboard)
}
