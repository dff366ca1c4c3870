package tow

import "math"

// Hold is a line that holds the fish: from where it is made fast, east, north and up,
// metres, to the fish. Slack it does nothing; taut it pulls as
//
//	F = EA (d - L)/L
//
// with L its length and EA what it takes to double it. Left out: its weight, and the
// flow past it.
type Hold struct {
	At     [3]float64
	Length float64 // metres
	EA     float64 // N
}

// SetHold has a line hold the fish, nil for none.
func (g *Gear) SetHold(h *Hold) { g.cable.held = h }

// HoldPull is how hard the line that holds the fish pulls, N.
func (g *Gear) HoldPull() float64 {
	c := &g.cable
	if c.held == nil {
		return 0
	}
	_, long := c.held.from(c.at[0])
	return max(c.held.EA*(long-c.held.Length)/c.held.Length, 0)
}

// from is the way to it from a place.
func (h *Hold) from(at vec) (toward vec, long float64) {
	e := vec{h.At[0], h.At[1], h.At[2]}.minus(at)
	long = max(e.length(), 1e-9)
	return e.times(1 / long), long
}

// loadHold adds the pull of the line that holds the fish to node 0.
func (c *cable) loadHold() (f vec) {
	t, long := c.held.from(c.at[0])
	k := c.held.EA / c.held.Length
	pull := k * (long - c.held.Length)
	if pull <= 0 {
		return vec{}
	}
	swing := pull / long
	c.block[0].ray(k-swing, swing, t)
	return t.times(pull)
}

// Nearest is how near the tow comes to a plumb line at a place, metres on the level,
// and at what depth; only what is under water counts. It is infinite where nothing is.
func (g *Gear) Nearest(x, y float64) (distance, depth float64) {
	c := &g.cable
	distance = math.Inf(1)
	for i := range c.n {
		a, b := c.at[i], c.at[i+1]
		dx, dy := b.x-a.x, b.y-a.y
		f := 0.0
		if long := dx*dx + dy*dy; long > 0 {
			f = min(max(((x-a.x)*dx+(y-a.y)*dy)/long, 0), 1)
		}
		p := a.mix(b, f)
		if d := math.Hypot(p.x-x, p.y-y); d < distance && p.z < 0 {
			distance, depth = d, -p.z
		}
	}
	return distance, depth
}
