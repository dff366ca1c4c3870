package tow

import "math"

// Gear is the tow at work.
type Gear struct {
	Spec  Spec
	table *Table

	CableOut float64 // metres from the sheave
	Ordered  float64 // cable out the winch was told, metres
	Tension  float64 // at the sheave, N
	Angle    float64 // of the cable at the sheave, radians

	X, Y, Depth float64 // of the fish, metres
	VX, VY      float64 // of the fish over ground, m/s
	Heading     float64 // of the fish, grid bearing, radians
	Layback     float64 // metres
	Grounded    bool    // the fish touched the floor in the last step

	trail float64 // grid bearing from sheave to fish, radians
}

// New puts the fish in the water astern of a sheave at (x, y), as it tows
// steadily at a speed through the water on a heading.
func New(s Spec, sheaveHeight, cableOut, speed, x, y, heading float64) *Gear {
	g := &Gear{Spec: s, table: NewTable(s, sheaveHeight), CableOut: cableOut, Ordered: cableOut}
	g.trail = heading + math.Pi
	g.Heading = heading
	shape := g.table.At(speed, cableOut)
	g.Depth, g.Layback, g.Tension, g.Angle = shape.Depth, shape.Layback, shape.Tension, shape.Angle
	g.put(x, y)
	return g
}

func (g *Gear) put(x, y float64) {
	g.X = x + g.Layback*math.Sin(g.trail)
	g.Y = y + g.Layback*math.Cos(g.trail)
}

// turnLag is the time constant of the tow's direction over layback/U.
const turnLag = 0.75

// Step advances the tow by dt seconds. The sheave is at (x, y) and moves over
// ground at (vx, vy); the current is (cx, cy); floor is the height of whatever
// is under the fish, metres (negative below water).
//
// The steady solution at the present speed through the water is approached
// with first-order lags, the real motion of the cable left out: the direction
// of the tow turns towards dead astern with the time constant 0.75 layback/U,
// the depth and layback change with 0.6 L/U, rising faster than sinking. Those
// shares are what full cable dynamics gives: a steady turn with 100 m of cable
// on a circle of 200 m, and speed steps of 0.5 to 0.8 L/U to 63 %.
func (g *Gear) Step(dt, x, y, vx, vy, cx, cy, floor float64) {
	step := g.Spec.Winch.Rate * dt
	target := min(max(g.Ordered, g.Spec.Winch.Min), g.Spec.Cable.Length)
	g.CableOut += min(max(target-g.CableOut, -step), step)

	wx, wy := vx-cx, vy-cy
	u := math.Hypot(wx, wy)
	shape := g.table.At(u, g.CableOut)
	if u > 0.05 {
		astern := math.Atan2(-wx, -wy)
		g.trail = wrap(g.trail + wrap(astern-g.trail)*(1-math.Exp(-dt*u/max(turnLag*g.Layback, 1))))
	}
	lag := 0.6 * max(g.CableOut, 1) / max(u, 0.3)
	if shape.Depth > g.Depth {
		lag *= 1.15
	}
	f := 1 - math.Exp(-dt/lag)
	g.Layback += (shape.Layback - g.Layback) * f
	g.Depth += (shape.Depth - g.Depth) * f
	g.Tension += (shape.Tension - g.Tension) * f
	g.Angle += (shape.Angle - g.Angle) * f

	const clearance = 0.15 // half the body, metres
	g.Grounded = g.Depth > -floor-clearance
	if g.Grounded {
		g.Depth = max(-floor-clearance, 0)
	}
	oldX, oldY := g.X, g.Y
	g.put(x, y)
	g.VX, g.VY = (g.X-oldX)/dt, (g.Y-oldY)/dt
	if hx, hy := g.VX-cx, g.VY-cy; math.Hypot(hx, hy) > 0.2 {
		g.Heading = math.Atan2(hx, hy) // fins keep it into the flow
	}
}

func wrap(a float64) float64 { return a - 2*math.Pi*math.Round(a/(2*math.Pi)) }
