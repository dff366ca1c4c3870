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
// a tenth of a second at most.
//
// The method is the lumped-mass one of mooring and tow codes (reviewed against
// others by Ablow and Schechter, "Numerical simulation of undersea cable
// dynamics", Ocean Engng 10, 1983); backward Euler damps what is faster than a
// step. Against the steady solution twenty nodes are about 1 % shallow.
//
// Left out: bending and torsion, strumming, lift of the fish and of its fins,
// slope of the floor under the cable and friction on it, wind on the cable,
// waves' orbital motion.
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
	Heading     float64 // of the fish, grid bearing, radians
	Layback     float64 // metres
	Grounded    bool    // the fish touched the floor in the last step

	line line
}

// New puts the fish in the water astern of a sheave at (x, y), as it tows
// steadily at a speed through the water on a heading.
func New(s Spec, sheaveHeight, cableOut, speed, x, y, heading float64) *Gear {
	return newGear(s, sheaveHeight, cableOut, speed, x, y, heading, usualNodes)
}

func newGear(s Spec, sheaveHeight, cableOut, speed, x, y, heading float64, nodes int) *Gear {
	g := &Gear{Spec: s, CableOut: cableOut, Ordered: cableOut, SheaveUp: sheaveHeight, Heading: heading}
	sin, cos := math.Sincos(heading)
	g.line.material = s.material()
	g.line.axis = vec{sin, cos, 0}
	g.line.floor = math.Inf(-1)
	out := max(cableOut, shortest)
	shape := s.Steady(speed, out, sheaveHeight)
	g.line.lay(s.loads(speed), shape.Depth, speed, out, vec{x, y, sheaveHeight}, vec{sin, cos, 0}, nodes)
	g.Tension, g.Angle = shape.Tension, shape.Angle
	aft := shape.Tension * math.Cos(shape.Angle)
	g.PullX, g.PullY = -aft*sin, -aft*cos
	g.read(0, 0)
	return g
}

// shortest is the least cable the equations are solved for, metres.
const shortest = 0.1

// lay puts the cable where it tows steadily with the fish at a depth.
func (l *line) lay(loads loads, depth, speed, out float64, sheave, ahead vec, nodes int) {
	l.n = max(min(nodes, int(out/finestSpacing)), 1)
	l.spacing = max(out/float64(l.n), finestSpacing)
	l.top = out - float64(l.n-1)*l.spacing
	at := loads.atFish()
	const pieces = 16
	for i := range l.n + 1 {
		l.at[i] = ahead.times(at.x)
		l.at[i].z = at.z
		l.vel[i] = ahead.times(speed)
		ds := l.rest(min(i, l.n-1)) * (1 + at.tension/l.stiffness) / pieces
		for range pieces {
			next := loads.step(at, ds)
			if next.z > depth {
				next = hang(at, l.mass*gravity, ds)
			}
			at = next
		}
	}
	shift := sheave.minus(l.at[l.n])
	for i := range l.n + 1 {
		l.at[i] = l.at[i].plus(shift)
	}
}

// Step advances the tow by dt seconds, the sheave going to (x, y). The current
// is (cx, cy), m/s over ground; floor is the height of whatever is under the
// fish, metres (negative below water), and is taken to be level.
func (g *Gear) Step(dt, x, y, cx, cy, floor float64) {
	l := &g.line
	l.flow = vec{cx, cy, 0}
	l.floor = floor
	steps := max(int(math.Ceil(dt/longestStep-1e-9)), 1)
	h := dt / float64(steps)
	from, to := l.at[l.n], vec{x, y, g.SheaveUp}
	g.Grounded = false
	for i := range steps {
		g.turnDrum(h)
		l.step(h, from.mix(to, float64(i+1)/float64(steps)))
		g.Grounded = g.Grounded || l.touched
	}
	g.PullX, g.PullY = l.pull.x, l.pull.y
	g.Tension = l.pull.length()
	g.Angle = math.Atan2(-l.pull.z, math.Hypot(l.pull.x, l.pull.y))
	g.read(cx, cy)
}

// turnDrum pays out or hauls for h seconds.
func (g *Gear) turnDrum(h float64) {
	step := g.Spec.Winch.Rate * h
	target := min(max(g.Ordered, g.Spec.Winch.Min), g.Spec.Cable.Length)
	change := min(max(target-g.CableOut, -step), step)
	if change != 0 {
		g.CableOut += change
		g.line.wind(max(g.CableOut, shortest))
	}
}

// read takes the state of the fish from the end of the line.
func (g *Gear) read(cx, cy float64) {
	l := &g.line
	fish, sheave := l.at[0], l.at[l.n]
	g.X, g.Y, g.Depth = fish.x, fish.y, max(-fish.z, 0)
	g.VX, g.VY = l.vel[0].x, l.vel[0].y
	g.Layback = math.Hypot(fish.x-sheave.x, fish.y-sheave.y)
	if hx, hy := g.VX-cx, g.VY-cy; math.Hypot(hx, hy) > 0.2 {
		g.Heading = math.Atan2(hx, hy) // fins keep it into the flow
		sin, cos := math.Sincos(g.Heading)
		l.axis = vec{sin, cos, 0}
	}
}
