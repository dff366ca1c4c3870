package vessel

import "math"

// leaning is where on board a point is carried as she pitches and rolls: bow up
// carries what stands high aft, starboard down carries it to starboard. Its
// height changes by [Attitude.PointHeave].
func (o Offset) leaning(a Attitude) Offset {
	return Offset{
		Forward:   o.Forward - o.Up*math.Sin(a.Pitch),
		Starboard: o.Starboard + o.Up*math.Sin(a.Roll),
		Up:        o.Up + a.PointHeave(o.Forward, o.Starboard),
	}
}

// RidingAt returns where a point on board is as she rides in the waves: on the
// grid, and above still water, metres.
func (h *Hull) RidingAt(o Offset, a Attitude) (x, y, z float64) {
	now := o.leaning(a)
	x, y = h.At(now)
	return x, y, now.Up
}

// VelocityRiding returns how fast [Hull.RidingAt] moves over ground, m/s: besides
// way and yaw, what stands at a height is swung aft by U cos(theta) dtheta/dt
// and to starboard by U cos(phi) dphi/dt.
func (h *Hull) VelocityRiding(o Offset, a Attitude) (vx, vy float64) {
	vx, vy = h.VelocityAt(o.leaning(a))
	sin, cos := math.Sincos(h.Heading)
	forward := -o.Up * math.Cos(a.Pitch) * a.PitchRate
	starboard := o.Up * math.Cos(a.Roll) * a.RollRate
	return vx + forward*sin + starboard*cos, vy + forward*cos - starboard*sin
}
