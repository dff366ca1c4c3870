package sim

import "dryline/vessel"

// aboard is where a point on board is as the vessel moves in the waves, metres:
// on the grid, and above still water.
func (s *Session) aboard(o vessel.Offset) (x, y, z float64) { return s.hull.Aboard(o, s.ride) }
