package tow

import "math"

// Gear is the tow at work: winch, cable and fish in motion.
//
// The cable is lumped to nodes, twenty at first and 15 to 40 as it is paid out
// and hauled (fewer on the last metres), joined by segments that pull and do
// not push. Each node carries half of the segments beside it: their mass, the
// water they take along across (Ca = 1), their weight, and drag by the
// independence principle as in [Spec.Steady]. What is above water has its
// weight in air and no drag. The fish is the last node. Steps are implicit, of
// a twentieth of a second at most.
//
// The method is the lumped-mass one of mooring and tow codes (reviewed against
// others by Ablow and Schechter, "Numerical simulation of undersea cable
// dynamics", Ocean Engng 10, 1983); backward Euler damps what is faster than a
// step. Against the steady solution twenty nodes are about 1 % shallow.
//
// Left out: bending and torsion, strumming, lift of a fish that swings, slope of
// the floor under the cable and the cable's friction on it, wind on the cable, waves'
// orbital motion.
type Gear struct {
	Spec Spec

	CableOut float64 // metres from the sheave
	Ordered  float64 // cable out the winch was told, metres
	SheaveUp float64 // height of the sheave above still water, metres; may be moved between steps

	Tension      float64 // at the sheave, N
	Angle        float64 // of the cable at the sheave, to the horizontal, downward positive, radians
	PullX, PullY float64 // of the cable on the sheave, east and north, N

	X, Y, Depth float64 // of the fish, metres; no depth when it is out of the water
	VX, VY      float64 // of the fish over ground, m/s
	Attitude            // of the fish
	Layback     float64 // metres
	Grounded    bool    // the fish touched the floor in the last step
	Stalled     bool    // the winch cannot haul against the cable
	Jammed      bool    // the winch turns neither way, but for what slips through its brake; set between steps
	Slipped     float64 // cable lost through the brake so far, metres

	cable cable
	poise poise
	way   vec // of the sheave over the last step, m/s
}

// New puts the fish in the water astern of a sheave at (x, y), as it tows
// steadily at a speed through the water on a heading.
func New(s Spec, sheaveHeight, cableOut, speed, x, y, heading float64) *Gear {
	return newGear(s, sheaveHeight, cableOut, speed, x, y, heading, usualNodes)
}

func newGear(s Spec, sheaveHeight, cableOut, speed, x, y, heading float64, nodes int) *Gear {
	g := &Gear{Spec: s, CableOut: cableOut, Ordered: cableOut, SheaveUp: sheaveHeight}
	g.poise = s.poise(speed, heading)
	sin, cos := math.Sincos(heading)
	g.way = vec{speed * sin, speed * cos, 0}
	g.cable.material = s.material()
	g.cable.axis = vec{sin, cos, 0}
	g.cable.floor = math.Inf(-1)
	out := max(cableOut, shortest)
	shape := s.Steady(speed, out, sheaveHeight)
	g.cable.lay(s.loads(speed), shape.Depth, speed, out, vec{x, y, sheaveHeight}, vec{sin, cos, 0}, nodes)
	g.Tension, g.Angle = shape.Tension, shape.Angle
	aft := shape.Tension * math.Cos(shape.Angle)
	g.PullX, g.PullY = -aft*sin, -aft*cos
	g.read()
	return g
}

// rises is how soon a fish that is clear has shaken off what it had dug up, m/s of the
// way it was dragged: our own choice.
const rises = 1.0

// shortest is the least cable the equations are solved for, metres.
const shortest = 0.1

// lay puts the cable where it tows steadily with the fish at a depth.
func (c *cable) lay(loads loads, depth, speed, out float64, sheave, ahead vec, nodes int) {
	c.n = max(min(nodes, int(out/finestSpacing)), 1)
	c.spacing = max(out/float64(c.n), finestSpacing)
	c.top = out - float64(c.n-1)*c.spacing
	at := loads.atFish()
	const pieces = 16
	for i := range c.n + 1 {
		c.at[i] = ahead.times(at.x)
		c.at[i].z = at.z
		c.vel[i] = ahead.times(speed)
		ds := c.rest(min(i, c.n-1)) * (1 + at.tension/c.stiffness) / pieces
		for range pieces {
			next := loads.along(at, ds)
			if next.z > depth {
				next = hang(at, c.mass*gravity, ds)
			}
			at = next
		}
	}
	shift := sheave.minus(c.at[c.n])
	for i := range c.n + 1 {
		c.at[i] = c.at[i].plus(shift)
	}
}

// Water moves past the cable: the current at a height, east and north, m/s over
// ground.
type Water interface {
	Current(z float64) (east, north float64)
}

// Step advances the tow by dt seconds, the sheave going to (x, y). floor is the
// height of whatever is under the fish, metres (negative below water), and is
// taken to be level.
func (g *Gear) Step(dt, x, y float64, water Water, floor float64) {
	c := &g.cable
	c.floor = floor
	steps := max(int(math.Ceil(dt/longestStep-1e-9)), 1)
	h := dt / float64(steps)
	from, to := c.at[c.n], vec{x, y, g.SheaveUp}
	way := to.minus(from)
	bend := way.minus(g.way.times(dt)) // a sheave that bends its way has no corner where a step ends
	g.way = way.times(1 / dt)
	g.Grounded = false
	for i := range steps {
		g.turnDrum(h)
		for j := range c.n + 1 { // nodes move little in a step
			c.flow[j].x, c.flow[j].y = water.Current(c.at[j].z)
		}
		f := float64(i+1) / float64(steps)
		c.step(h, from.mix(to, f).plus(bend.times(0.5*f*(f-1))))
		g.Grounded = g.Grounded || c.touched
		if c.touched {
			c.dragged += math.Hypot(c.vel[0].x, c.vel[0].y) * h
		} else {
			c.dragged = max(c.dragged-rises*h, 0)
		}
		g.poise.step(h, c.hold, c.vel[0].minus(c.flow[0]))
	}
	g.PullX, g.PullY = c.tug.x, c.tug.y
	g.Tension = c.tug.length()
	g.Angle = math.Atan2(-c.tug.z, math.Hypot(c.tug.x, c.tug.y))
	g.read()
}

// read takes the state of the fish from the end of the line.
func (g *Gear) read() {
	c := &g.cable
	fish, sheave := c.at[0], c.at[c.n]
	g.X, g.Y, g.Depth = fish.x, fish.y, max(-fish.z, 0)
	g.VX, g.VY = c.vel[0].x, c.vel[0].y
	g.Layback = math.Hypot(fish.x-sheave.x, fish.y-sheave.y)
	g.Attitude = g.poise.attitude()
	if flow := c.vel[0].minus(c.flow[0]); math.Hypot(flow.x, flow.y) > 0.2 {
		flow.z = 0
		c.axis = flow.times(1 / flow.length())
	}
}

// Curve appends to dst the cable from the fish to the sheave as points east,
// north and up, metres, for those who may see the truth.
func (g *Gear) Curve(dst [][3]float64) [][3]float64 {
	for _, p := range g.cable.at[:g.cable.n+1] {
		dst = append(dst, [3]float64{p.x, p.y, p.z})
	}
	return dst
}
