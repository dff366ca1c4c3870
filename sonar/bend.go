package sonar

import "math"

// bend is how the water's layers bend the sound from a fish at one depth: what
// to add to straight-line geometry for a point at a ground range and a depth.
//
// It is worked out by tracing rays: along a ray of grazing angle theta (down
// positive)
//
//	dg/ds = cos(theta), dz/ds = sin(theta), dtheta/ds = -(cos(theta)/c) dc/dz, dt/ds = 1/c
//
// (Snell's law in a layered medium; Jensen, Kuperman, Porter and Schmidt,
// Computational Ocean Acoustics, 2011, chapter 3), by the midpoint rule, from
// straight down through level to upwards, and noting where each crosses each
// depth first. Where no ray arrives, nothing is lit. Left out: what focusing
// does to the level, and second arrivals.
type bend struct {
	columns, rows int
	perMetre      float64 // columns per metre of ground range
	table         []bent  // row by row, a row a depth
}

// bent is the correction at one point.
type bent struct {
	launch float32 // to the tangent of the launch elevation
	arrive float32 // to the tangent of the arrival elevation
	excess float32 // to the slant range, by the reference sound speed, metres
}

const (
	bendColumns  = 96
	bendRow      = 0.5  // metres of depth between rows
	bendStep     = 0.25 // metres of ray between steps
	bendHalvings = 9    // of the angle between two rays that part
	dark         = -1e6 // a launch correction that no point rises above
)

// bendFans are the rays traced, from straight down to straight up by grazing
// angle in degrees: closest together near the level, where a small turn goes
// far.
var bendFans = []struct {
	from, to float64
	rays     int
}{{89.7, 25, 150}, {25, 5, 400}, {5, -5, 500}, {-5, -25, 200}, {-25, -89.7, 100}}

// meeting is where a ray meets a depth.
type meeting struct{ g, launch, arrive, time float64 }

// newBend traces the rays from a depth. end is the slant range recorded and
// reference the sound speed that turns time into range.
func newBend(p profile, depth, end, reference float64) *bend {
	b := &bend{
		columns: bendColumns + 1, perMetre: bendColumns / end,
		rows: int((depth+0.7*end)/bendRow) + 2,
	}
	met := make([][]meeting, b.rows)
	last, reached := 0.0, -1
	for _, fan := range bendFans {
		for i := range fan.rays {
			theta := (fan.from + (fan.to-fan.from)*float64(i)/float64(fan.rays)) * math.Pi / 180
			ray, deepest := p.trace(depth, theta, end, b.rows)
			if reached >= 0 {
				p.between(met, depth, end, last, theta, reached, deepest, bendHalvings)
			}
			gather(met, ray)
			last, reached = theta, deepest
		}
	}
	b.table = make([]bent, b.rows*b.columns)
	for j := range b.rows {
		b.fill(j, met[j], depth, reference)
	}
	return b
}

// between traces more rays between two that turn back at different rows: near
// the ray that just grazes a depth, a hair of angle is metres of range.
func (p profile) between(met [][]meeting, depth, end, a, b float64, reachedA, reachedB, halvings int) {
	if reachedA == reachedB || halvings == 0 {
		return
	}
	theta := (a + b) / 2
	ray, deepest := p.trace(depth, theta, end, len(met))
	p.between(met, depth, end, a, theta, reachedA, deepest, halvings-1)
	gather(met, ray)
	p.between(met, depth, end, theta, b, deepest, reachedB, halvings-1)
}

func gather(met [][]meeting, ray []rowMeeting) {
	for _, m := range ray {
		met[m.row] = append(met[m.row], m.meeting)
	}
}

// rowMeeting is where a ray first meets a row's depth.
type rowMeeting struct {
	row int
	meeting
}

// trace follows one ray: where it first crosses each row's depth, and the
// deepest row it reached.
func (p profile) trace(depth, theta, end float64, rows int) (met []rowMeeting, deepest int) {
	launch := -math.Tan(theta) // elevation, up positive, as the walk has it
	g, z, t := 0.0, depth, 0.0
	seen := make([]bool, rows)
	for s := 0.0; s < 1.3*end && g < 1.05*end; s += bendStep {
		c, gradient := p.at(z)
		half := theta - math.Cos(theta)/c*gradient*bendStep/2
		cm, gm := p.at(z + math.Sin(half)*bendStep/2)
		next := theta - math.Cos(half)/cm*gm*bendStep
		z1, g1, t1 := z+math.Sin(half)*bendStep, g+math.Cos(half)*bendStep, t+bendStep/cm
		lo, hi := min(z, z1)/bendRow, max(z, z1)/bendRow
		for j := max(int(math.Ceil(lo)), 0); float64(j) <= hi && j < rows; j++ {
			if seen[j] || z1 == z {
				continue
			}
			seen[j] = true
			deepest = max(deepest, j)
			f := (float64(j)*bendRow - z) / (z1 - z)
			met = append(met, rowMeeting{j, meeting{g + f*(g1-g), launch, -math.Tan(theta + f*(next-theta)), t + f*(t1-t)}})
		}
		g, z, t, theta = g1, z1, t1, next
		if z < -1 {
			break // through the surface: what comes back is another effect
		}
	}
	return met, deepest
}

// fill turns the meetings of one depth into corrections at even ground ranges.
func (b *bend) fill(row int, met []meeting, depth, reference float64) {
	z := float64(row) * bendRow
	drop := z - depth
	// Keep the arrivals that go ever further out: the direct ones, in order.
	var direct []meeting
	for k := range met {
		m := met[k]
		if drop < 0 { // towards the surface: steepest up first
			m = met[len(met)-1-k]
		}
		if n := len(direct); n == 0 || m.g > direct[n-1].g {
			direct = append(direct, m)
		}
	}
	k := 0
	for i := range b.columns {
		g := max(float64(i)/b.perMetre, 0.05)
		out := &b.table[row*b.columns+i]
		for k+1 < len(direct) && direct[k+1].g < g {
			k++
		}
		switch {
		case len(direct) < 2 || g > direct[len(direct)-1].g:
			// Around the fish's own depth the level ray is missing, not the sound.
			if math.Abs(drop) >= 1.5*bendRow {
				*out = bent{launch: dark}
			}
			continue
		case g < direct[0].g:
			continue // nearer than the steepest ray: straight
		}
		m, n := direct[k], direct[k+1]
		f := (g - m.g) / (n.g - m.g)
		mix := func(p, q float64) float64 { return p + f*(q-p) }
		straight := -drop / g
		*out = bent{
			launch: float32(mix(m.launch, n.launch) - straight),
			arrive: float32(mix(m.arrive, n.arrive) - straight),
			excess: float32(mix(m.time, n.time)*reference - math.Hypot(g, drop)),
		}
	}
}

// at interpolates the corrections.
func (b *bend) at(g, depth float64) bent {
	u := min(max(g*b.perMetre, 0), float64(b.columns-1)-1e-6)
	v := min(max(depth/bendRow, 0), float64(b.rows-1)-1e-6)
	i, j := int(u), int(v)
	fu, fv := float32(u-float64(i)), float32(v-float64(j))
	k := j*b.columns + i
	p, q, r, s := &b.table[k], &b.table[k+1], &b.table[k+b.columns], &b.table[k+b.columns+1]
	mix := func(a, b, c, d float32) float32 {
		low, high := a+fu*(b-a), c+fu*(d-c)
		return low + fv*(high-low)
	}
	return bent{
		mix(p.launch, q.launch, r.launch, s.launch),
		mix(p.arrive, q.arrive, r.arrive, s.arrive),
		mix(p.excess, q.excess, r.excess, s.excess),
	}
}

// bendDepth is the step of fish depth for which bends are kept, metres.
const bendDepth = 0.1

// bendFor returns the bend for a fish depth, nil in water without layers. It
// depends on the depth alone, to the nearest step, whoever asks first.
func (e *Engine) bendFor(depth float64) *bend {
	if len(e.profile) == 0 {
		return nil
	}
	key := int(math.Round(depth / bendDepth))
	e.bendLock.Lock()
	defer e.bendLock.Unlock()
	b := e.bends[key]
	if b == nil {
		b = newBend(e.profile, float64(key)*bendDepth, float64(e.spec.Samples)*e.bin, e.soundSpeed)
		e.bends[key] = b
	}
	return b
}
