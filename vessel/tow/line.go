package tow

import "math"

const (
	mostNodes     = 40
	fewestNodes   = 15
	usualNodes    = 20
	finestSpacing = 0.5  // metres; segments are not cut shorter
	clearance     = 0.15 // half the body of the fish, metres

	floorFriction = 0.5  // of the fish on the floor: between steel on sand and on mud, our own choice
	creep         = 0.02 // m/s
)

// line is the cable cut into segments between nodes. Node 0 is the fish; node
// n, the sheave, goes where it is told. All segments but the one at the sheave
// are spacing long; that one takes up what the winch pays out.
type line struct {
	material

	n       int
	spacing float64 // unstretched, metres
	top     float64 // of the segment at the sheave, unstretched, metres

	at, vel [mostNodes + 1]vec // of the nodes, m and m/s over ground
	flow    [mostNodes + 1]vec // of the water at the nodes over ground, m/s
	axis    vec                // of the fish, forward
	floor   float64            // height of the sea floor, metres
	pull    vec                // of the cable on the sheave, N
	hold    vec                // of the cable on the fish, N
	touched bool               // the fish is on the floor

	was     [mostNodes + 1]vec // where the nodes began the step
	force   [mostNodes + 1]vec // N; less what is left over, in a solved system 0
	block   [mostNodes + 1]sym // diagonal of the system, N/m
	inverse [mostNodes]sym
	tangent [mostNodes]vec // of segment i, from node i up
	stretch [mostNodes]float64
	swing   [mostNodes]float64 // segment stiffness is stretch t t^T + swing I
}

func (l *line) rest(i int) float64 {
	if i == l.n-1 {
		return l.top
	}
	return l.spacing
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
// present positions, for a step of h seconds.
func (l *line) assemble(h float64) {
	perH, perHH := 1/h, 1/(h*h)
	for i := range l.n + 1 {
		l.force[i], l.block[i] = vec{}, sym{}
	}
	l.loadFish(h)
	for i := range l.n {
		rest := l.rest(i)
		e := l.at[i+1].minus(l.at[i])
		long := max(e.length(), 1e-9)
		t := e.times(1 / long)
		k := l.stiffness / rest
		pull := k * (long - rest)
		swing := pull / long
		if pull <= 0 { // slack; a trace of stiffness says which way to straighten
			pull, swing, k = 0, 0, 1e-3*k
		}
		l.tangent[i], l.stretch[i], l.swing[i] = t, k-swing, swing
		for end := range 2 {
			j := i + end
			l.block[j].ray(k-swing, swing, t)
		}
		l.force[i] = l.force[i].plus(t.times(pull))
		l.force[i+1] = l.force[i+1].minus(t.times(pull))

		wetA, wetB := wetShare(l.at[i].z, l.at[i+1].z)
		l.loadEnd(i, rest, wetA, t, perH, perHH)
		l.loadEnd(i+1, rest, wetB, t, perH, perHH)
	}
}

// loadEnd adds to a node its share of the weight, drag and inertia of a
// segment.
func (l *line) loadEnd(j int, rest, wet float64, t vec, perH, perHH float64) {
	mass := 0.5 * rest * l.mass
	vel := l.at[j].minus(l.was[j]).times(perH)
	change := vel.minus(l.vel[j]).times(perH)
	f := change.times(-mass)
	f.z -= mass * gravity
	ray, round := 0.0, mass*perHH
	if wet > 0 {
		wet *= rest
		added := wet * l.displaced // Ca = 1 across, none along
		f.z += added * gravity
		u := l.flow[j].minus(vel)
		ut := u.dot(t)
		un := u.minus(t.times(ut))
		across := wet * l.normal * un.length()
		along := wet * l.along * math.Abs(ut)
		f = f.plus(un.times(across)).plus(t.times(along * ut))
		f = f.minus(change.minus(t.times(change.dot(t))).times(added))
		round += across*perH + added*perHH
		ray = along*perH - across*perH - added*perHH
	}
	l.block[j].ray(ray, round, t)
	l.force[j] = l.force[j].plus(f)

	// A sea floor that gives a centimetre under twice the weight.
	if in := l.floor - l.at[j].z; in > 0 {
		k := 200 * mass * gravity
		l.force[j].z += k * in
		l.block[j].zz += k
	}
}

// loadFish adds the fish to node 0.
func (l *line) loadFish(h float64) {
	at := l.at[0]
	wet := min(max((clearance-at.z)/(2*clearance), 0), 1)
	vel := at.minus(l.was[0]).times(1 / h)
	change := vel.minus(l.vel[0]).times(1 / h)
	u := l.flow[0].minus(vel)
	drag := wet * l.fishDrag * u.length()
	added := wet * l.fishDisplaced // of a slender body: Ca = 1 across, none along

	f := change.times(-l.fishMass - added).plus(l.axis.times(added * change.dot(l.axis))).plus(u.times(drag))
	f.z -= l.fishWeight + (1-wet)*l.fishDisplaced*gravity + wet*l.fishLift*(u.x*u.x+u.y*u.y)
	b := &l.block[0]
	b.ray(-added/(h*h), (l.fishMass+added)/(h*h)+drag/h, l.axis)
	if in := l.floor + clearance - at.z; in > 0 {
		k := 100 * (l.fishWeight + l.fishMass*gravity)
		f.z += k * in
		b.zz += k
		// What drags over the floor rubs on it. Coulomb's law has no slope at rest;
		// below the creep it is a steep drag.
		rub := floorFriction * k * in / (math.Hypot(vel.x, vel.y) + creep)
		f.x -= rub * vel.x
		f.y -= rub * vel.y
		b.xx += rub / h
		b.yy += rub / h
	}
	l.hold = f.times(-1) // what the cable must balance, its own share of node 0 apart
	l.force[0] = l.force[0].plus(f)
}

// solve makes one Newton correction by block elimination up the cable and
// substitution down it, and returns the largest move of a node.
func (l *line) solve() float64 {
	n := l.n
	for i := range n {
		if i > 0 {
			s, t := &l.inverse[i-1], l.tangent[i-1]
			c, b := l.stretch[i-1], l.swing[i-1]
			st := s.times(t)
			l.block[i].takeSandwich(c, b, t, st, s)
			y := s.times(l.force[i-1])
			l.force[i] = l.force[i].plus(t.times(c * t.dot(y))).plus(y.times(b))
		}
		l.inverse[i] = l.block[i].inverse()
	}
	most, limit := 0.0, 0.5*l.spacing
	var above vec // the sheave does not move
	for i := n - 1; i >= 0; i-- {
		t := l.tangent[i]
		r := l.force[i].plus(t.times(l.stretch[i] * t.dot(above))).plus(above.times(l.swing[i]))
		above = l.inverse[i].times(r)
		move := above
		size := move.length()
		if size > limit {
			move = move.times(limit / size)
		}
		l.at[i] = l.at[i].plus(move)
		most = max(most, size)
	}
	return most
}

const (
	longestStep = 0.1  // seconds
	iterations  = 6    // in a step of a tow, at most
	atSnatch    = 60   // at most, while corrections are rough
	halvings    = 6    // of a step that is still rough then
	rough       = 1e-3 // metres
	solved      = 1e-6 // metres; a correction so small is the last
)

// step moves the sheave to a place and the cable after it, h seconds on.
//
// Backward Euler: the nodes' new positions are such that inertia, weight, drag
// and tension of the new positions balance. Newton's method with the tangent
// stiffness of the segments, clamped to stay positive definite, and the drag
// written F = D(v) (u - v) with D of the last iteration. A node moves half a
// segment at most in an iteration. Where a snatch leaves it rough after six,
// iterations go on, and where they do not settle the step is taken in halves.
func (l *line) step(h float64, sheave vec) { l.part(h, sheave, halvings) }

func (l *line) part(h float64, sheave vec, halvings int) {
	n := l.n
	for i := range n {
		l.was[i] = l.at[i]
		l.at[i] = l.at[i].plus(l.vel[i].times(h))
	}
	l.was[n] = l.at[n]
	l.vel[n] = sheave.minus(l.at[n]).times(1 / h) // its inertia is the vessel's
	l.at[n] = sheave
	move := math.Inf(1)
	for i := 0; i < atSnatch && move >= solved && (i < iterations || move >= rough); i++ {
		l.assemble(h)
		move = l.solve()
	}
	if move >= rough && halvings > 0 {
		from := l.was[n]
		copy(l.at[:n+1], l.was[:n+1])
		l.part(h/2, from.mix(sheave, 0.5), halvings-1)
		l.part(h/2, sheave, halvings-1)
		return
	}
	l.assemble(h)
	l.pull = l.force[n]
	for i := range n {
		l.vel[i] = l.at[i].minus(l.was[i]).times(1 / h)
		if l.at[i].z < l.floor && l.vel[i].z > 0 {
			l.vel[i].z = 0 // the floor does not throw it back
		}
	}
	l.touched = l.at[0].z < l.floor+clearance
	if l.touched {
		l.vel[0].z = min(l.vel[0].z, 0)
	}
}
