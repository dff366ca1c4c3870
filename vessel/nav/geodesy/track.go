package geodesy

import "math"

// Track is the straight line from A to B on the local grid, metres: a survey
// line in the direction it is run.
type Track struct{ AX, AY, BX, BY float64 }

// Reversed is the track from B to A.
func (t Track) Reversed() Track { return Track{t.BX, t.BY, t.AX, t.AY} }

// Bearing is the grid bearing from A to B, radians, in -pi to pi.
func (t Track) Bearing() float64 { return math.Atan2(t.BX-t.AX, t.BY-t.AY) }

// Length is the distance from A to B, metres.
func (t Track) Length() float64 { return math.Hypot(t.BX-t.AX, t.BY-t.AY) }

// Offset returns how far along the track a point lies from A, and how far off
// it, positive to the right, metres.
func (t Track) Offset(x, y float64) (along, across float64) {
	sin, cos := math.Sincos(t.Bearing())
	dx, dy := x-t.AX, y-t.AY
	return dx*sin + dy*cos, dx*cos - dy*sin
}
