package tow

import "math"

const (
	mostNodes     = 40
	fewestNodes   = 15
	usualNodes    = 20
	finestSpacing = 0.5  // metres; segments are not cut shorter
	clearance     = 0.15 // half the body of the fish, metres

	floorFriction = 0.5  // of the fish on the floor: between steel on sand and on mud, our own choice
	ploughs       = 2.5  // of its weight that it takes besides, once it has dug in, as a poor anchor: our own choice
	digsIn        = 5.0  // metres that it is dragged until then
	creep         = 0.02 // m/s
)

// cable is a cable cut into segments between nodes. Node 0 is the fish; node
// n, the sheave, goes where it is told. All segments but the one at the sheave
// are spacing long; that one takes up what the winch pays out.
type cable struct {
	material

	n       int
	spacing float64 // unstretched, metres
	top     float64 // of the segment at the sheave, unstretched, metres

	at, vel [mostNodes + 1]vec // of the nodes, m and m/s over ground
	flow    [mostNodes + 1]vec // of the water at the nodes over ground, m/s
	axis    vec                // of the fish, forward
	floor   float64            // height of the sea floor, metres
	tug     vec                // of the cable on the sheave, N
	hold    vec                // of the cable on the fish, N
	touched bool               // the fish is on the floor
	dragged float64            // how far it has been, since it was last clear, metres
	held    *Hold              // or nil

	gain [mostNodes + 1]vec // of velocity over the last step, m/s: what the next is begun with
	pull [mostNodes]float64 // of the segments in the last step, N: 0 where slack

	was     [mostNodes + 1]vec // where the nodes began the step
	force   [mostNodes + 1]vec // N; less what is left over, in a solved system 0
	block   [mostNodes + 1]sym // diagonal of the system, N/m
	inverse [mostNodes]sym
	tangent [mostNodes]vec // of segment i, from node i up
	stretch [mostNodes]float64
	swing   [mostNodes]float64 // segment stiffness is stretch t t^T + swing I
}

func (c *cable) rest(i int) float64 {
	if i == c.n-1 {
		return c.top
	}
	return c.spacing
}

// wetShare is how much of a segment is under water: all of it below, and the
// part carried by each end if the wet part's middle is to carry it.
func wetShare(a, b float64) (atA, atB float64) {
	switch {
	case a <= 0 && b <= 0:
		return 0.5, 0.5
	case a >= 0 && b >= 0:
		return 0, 0
	case a < 0:
		f := a / (a - b)
		return f * (1 - f/2), f * f / 2
	default:
		f := b / (b - a)
		return f * f / 2, f * (1 - f/2)
	}
}

// assemble fills in the forces and the system of one Newton iteration at the
// present positions, for a step of h seconds. The first of a step takes segments
// that pulled in the last one as [cable.loadSegment] says.
func (c *cable) assemble(h float64, first bool) {
	for i := range c.n + 1 {
		c.force[i], c.block[i] = vec{}, sym{}
	}
	c.loadFish(h)
	for i := range c.n {
		c.loadSegment(i, h, first)
	}
}

// loadSegment adds a segment to its two nodes. An inshore cable stretches by a
// fifth of a millimetre a metre, so that a place guessed for its nodes has it slack
// here and overstretched there. asWas takes one that pulled in the last step as
// pulling still, for whatever holds it to its line, and as a bar, which pushes if it
// is too short: the correction then puts its length right.
func (c *cable) loadSegment(i int, h float64, asWas bool) {
	rest := c.rest(i)
	e := c.at[i+1].minus(c.at[i])
	long := max(e.length(), 1e-9)
	t := e.times(1 / long)
	k := c.stiffness / rest
	pull := k * (long - rest)
	swing := pull / long
	switch {
	case asWas && c.pull[i] > 0:
		swing = c.pull[i] / long
	case pull <= 0: // slack; a trace of stiffness says which way to straighten
		pull, swing, k = 0, 0, 1e-3*k
	}
	c.tangent[i], c.stretch[i], c.swing[i] = t, k-swing, swing
	c.block[i].ray(k-swing, swing, t)
	c.block[i+1].ray(k-swing, swing, t)
	c.force[i] = c.force[i].plus(t.times(pull))
	c.force[i+1] = c.force[i+1].minus(t.times(pull))

	wetA, wetB := wetShare(c.at[i].z, c.at[i+1].z)
	perH := 1 / h
	c.loadEnd(i, rest, wetA, t, perH, perH*perH)
	c.loadEnd(i+1, rest, wetB, t, perH, perH*perH)
}

// loadEnd adds to a node its share of the weight, drag and inertia of a
// segment.
func (c *cable) loadEnd(j int, rest, wet float64, t vec, perH, perHH float64) {
	mass := 0.5 * rest * c.mass
	vel := c.at[j].minus(c.was[j]).times(perH)
	change := vel.minus(c.vel[j]).times(perH)
	f := change.times(-mass)
	f.z -= mass * gravity
	ray, round, steep := 0.0, mass*perHH, 0.0
	var un vec
	if wet > 0 {
		wet *= rest
		added := wet * c.displaced // Ca = 1 across, none along
		f.z += added * gravity
		u := c.flow[j].minus(vel)
		ut := u.dot(t)
		un = u.minus(t.times(ut))
		size := un.length()
		across := wet * c.normal * size
		along := wet * c.along * math.Abs(ut)
		f = f.plus(un.times(across)).plus(t.times(along * ut))
		f = f.minus(change.minus(t.times(change.dot(t))).times(added))
		round += across*perH + added*perHH
		ray = 2*along*perH - across*perH - added*perHH
		steep = wet * c.normal / max(size, 1e-9) * perH
	}
	c.block[j].rays(ray, round, t, steep, un)
	c.force[j] = c.force[j].plus(f)

	// A sea floor that gives a centimetre under twice the weight.
	if in := c.floor - c.at[j].z; in > 0 {
		k := 200 * mass * gravity
		c.force[j].z += k * in
		c.block[j].zz += k
	}
}

// loadFish adds the fish to node 0.
func (c *cable) loadFish(h float64) {
	at := c.at[0]
	wet := min(max((clearance-at.z)/(2*clearance), 0), 1)
	vel := at.minus(c.was[0]).times(1 / h)
	change := vel.minus(c.vel[0]).times(1 / h)
	u := c.flow[0].minus(vel)
	speed := u.length()
	drag := wet * c.fishDrag * speed
	added := wet * c.fishDisplaced // of a slender body: Ca = 1 across, none along

	f := change.times(-c.fishMass - added).plus(c.axis.times(added * change.dot(c.axis))).plus(u.times(drag))
	f.z -= c.fishWeight + (1-wet)*c.fishDisplaced*gravity + wet*c.fishLift*(u.x*u.x+u.y*u.y)
	b := &c.block[0]
	b.ray(-added/(h*h), (c.fishMass+added)/(h*h)+drag/h, c.axis)
	b.ray(wet*c.fishDrag/max(speed, 1e-9)/h, 0, u)
	if in := c.floor + clearance - at.z; in > 0 {
		k := 100 * (c.fishWeight + c.fishMass*gravity)
		f.z += k * in
		b.zz += k
		// What drags over the floor rubs on it. Coulomb's law has no slope at rest;
		// below the creep it is a steep drag.
		press := k * in
		dug := ploughs * min(c.dragged/digsIn, 1) * min(c.fishWeight, 10*press)
		rub := floorFriction*press + dug
		rub /= math.Hypot(vel.x, vel.y) + creep
		f.x -= rub * vel.x
		f.y -= rub * vel.y
		b.xx += rub / h
		b.yy += rub / h
	}
	if c.held != nil {
		f = f.plus(c.loadHold())
	}
	c.hold = f.times(-1) // what the cable must balance, its own share of node 0 apart
	c.force[0] = c.force[0].plus(f)
}

// solve makes one Newton correction by block elimination up the cable and
// substitution down it, and returns the largest move of a node.
func (c *cable) solve() float64 {
	n := c.n
	for i := range n {
		if i > 0 {
			s, t := &c.inverse[i-1], c.tangent[i-1]
			k, b := c.stretch[i-1], c.swing[i-1]
			st := s.times(t)
			c.block[i].takeSandwich(k, b, t, st, s)
			y := s.times(c.force[i-1])
			c.force[i] = c.force[i].plus(t.times(k * t.dot(y))).plus(y.times(b))
		}
		c.inverse[i] = c.block[i].inverse()
	}
	most, limit := 0.0, 0.5*c.spacing
	var above vec // the sheave does not move
	for i := n - 1; i >= 0; i-- {
		t := c.tangent[i]
		r := c.force[i].plus(t.times(c.stretch[i] * t.dot(above))).plus(above.times(c.swing[i]))
		above = c.inverse[i].times(r)
		move := above
		size := move.length()
		if size > limit {
			move = move.times(limit / size)
		}
		c.at[i] = c.at[i].plus(move)
		most = max(most, size)
	}
	return most
}

const (
	longestStep = 0.05 // seconds
	iterations  = 6    // in a step of a tow, at most
	atSnatch    = 60   // at most, while corrections are rough
	halvings    = 6    // of a step that is still rough then
	rough       = 1e-3 // metres
	solved      = 1e-6 // metres; where the next correction would be so small, there is none
)

// step moves the sheave to a place and the cable after it, h seconds on.
//
// Backward Euler: the nodes' new positions are such that inertia, weight, drag
// and tension of the new positions balance. Newton's method from where the nodes
// get with the acceleration they had, with the tangent stiffness of the segments,
// clamped to stay positive definite, and the slope of the drag by velocity; left
// out of it is how drag changes as a segment turns, some u h/L of that. A correction
// is mostly a hundredth of the one before, so that two or three do; the next is
// foretold by the last two. A node moves half a segment at most in an iteration.
// Where a snatch leaves it rough after six, iterations go on, and where they do not
// settle the step is taken in halves.
func (c *cable) step(h float64, sheave vec) { c.part(h, sheave, halvings) }

func (c *cable) part(h float64, sheave vec, halvings int) {
	n := c.n
	for i := range n {
		c.was[i] = c.at[i]
		c.at[i] = c.at[i].plus(c.vel[i].plus(c.gain[i]).times(h))
	}
	c.was[n] = c.at[n]
	c.vel[n] = sheave.minus(c.at[n]).times(1 / h) // its inertia is the vessel's
	c.at[n] = sheave
	move, next := math.Inf(1), math.Inf(1)
	for i := 0; i < atSnatch && next >= solved && (i < iterations || move >= rough); i++ {
		c.assemble(h, i == 0)
		last := move
		move = c.solve()
		next = foretold(last, move)
	}
	if move >= rough && halvings > 0 {
		from := c.was[n]
		copy(c.at[:n+1], c.was[:n+1])
		c.part(h/2, from.mix(sheave, 0.5), halvings-1)
		c.part(h/2, sheave, halvings-1)
		return
	}
	c.loadEnds(h)
	for i := range n {
		was := c.vel[i]
		c.vel[i] = c.at[i].minus(c.was[i]).times(1 / h)
		c.gain[i] = c.vel[i].minus(was)
		c.pull[i] = c.swing[i] * c.rest(i)
		if c.at[i].z < c.floor && c.vel[i].z > 0 {
			c.vel[i].z = 0 // the floor does not throw it back
		}
	}
	c.touched = c.at[0].z < c.floor+clearance
	if c.touched {
		c.vel[0].z = min(c.vel[0].z, 0)
	}
}

// foretold is how large the correction after the last two is, if each is the same
// share of the one before; of one alone nothing can be told, for the first stands on
// what the cable was.
func foretold(last, move float64) float64 {
	if math.IsInf(last, 1) {
		return last
	}
	return move * move / max(last, move, 1e-300)
}

// loadEnds finds what the cable pulls at the sheave and at the fish with in a solved
// step.
func (c *cable) loadEnds(h float64) {
	c.loadFish(h)
	c.force[c.n] = vec{}
	c.loadSegment(c.n-1, h, false)
	c.tug = c.force[c.n]
}
