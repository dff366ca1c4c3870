package sonar

import "math"

// plainRefraction is the same worked out the slow, plain way: rays are followed
// step by step along
//
//	dg/ds = cos(theta), dz/ds = sin(theta), dtheta/ds = -(cos(theta)/c) dc/dz, dt/ds = 1/c
//
// (Jensen, Kuperman, Porter and Schmidt, Computational Ocean Acoustics, 2011,
// chapter 3), by the midpoint rule, from straight down through level to upwards,
// and it is noted where each crosses each depth first.
type plainRefraction struct {
	columns, rows int
	perMetre      float64   // columns per metre of ground range
	table         []bending // row by row, a row a depth
}

const (
	plainColumns  = 96
	plainRow      = 0.5  // metres of depth between rows
	plainStep     = 0.25 // metres of ray between steps
	plainHalvings = 9    // of the angle between two rays that part
)

// plainFans are the rays traced, from straight down to straight up by grazing
// angle in degrees: closest together near the level, where a small turn goes
// far.
var plainFans = []struct {
	from, to float64
	rays     int
}{{89.7, 25, 150}, {25, 5, 400}, {5, -5, 500}, {-5, -25, 200}, {-25, -89.7, 100}}

// meeting is where a ray meets a depth.
type meeting struct{ g, launch, arrive, time float64 }

// newPlainRefraction traces the rays from a depth. end is the slant range recorded and
// reference the sound speed that turns time into range.
func newPlainRefraction(p profile, depth, end, reference float64) *plainRefraction {
	b := &plainRefraction{
		columns: plainColumns + 1, perMetre: plainColumns / end,
		rows: int((depth+0.7*end)/plainRow) + 2,
	}
	met := make([][]meeting, b.rows)
	last, reached := 0.0, -1
	for _, fan := range plainFans {
		for i := range fan.rays {
			theta := (fan.from + (fan.to-fan.from)*float64(i)/float64(fan.rays)) * math.Pi / 180
			ray, deepest := p.trace(depth, theta, end, b.rows)
			if reached >= 0 {
				p.between(met, depth, end, last, theta, reached, deepest, plainHalvings)
			}
			gather(met, ray)
			last, reached = theta, deepest
		}
	}
	b.table = make([]bending, b.rows*b.columns)
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
	for s := 0.0; s < 1.3*end && g < 1.05*end; s += plainStep {
		c, gradient := p.at(z)
		half := theta - math.Cos(theta)/c*gradient*plainStep/2
		cm, gm := p.at(z + math.Sin(half)*plainStep/2)
		next := theta - math.Cos(half)/cm*gm*plainStep
		z1, g1, t1 := z+math.Sin(half)*plainStep, g+math.Cos(half)*plainStep, t+plainStep/cm
		lo, hi := min(z, z1)/plainRow, max(z, z1)/plainRow
		for j := max(int(math.Ceil(lo)), 0); float64(j) <= hi && j < rows; j++ {
			if seen[j] || z1 == z {
				continue
			}
			seen[j] = true
			deepest = max(deepest, j)
			f := (float64(j)*plainRow - z) / (z1 - z)
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
func (b *plainRefraction) fill(row int, met []meeting, depth, reference float64) {
	z := float64(row) * plainRow
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
			if math.Abs(drop) >= 1.5*plainRow {
				*out = bending{launch: dark}
			}
			continue
		case g < direct[0].g:
			continue // nearer than the steepest ray: straight
		}
		m, n := direct[k], direct[k+1]
		f := (g - m.g) / (n.g - m.g)
		mix := func(p, q float64) float64 { return p + f*(q-p) }
		straight := -drop / g
		*out = bending{
			launch: float32(mix(m.launch, n.launch) - straight),
			arrive: float32(mix(m.arrive, n.arrive) - straight),
			excess: float32(mix(m.time, n.time)*reference - math.Hypot(g, drop)),
		}
	}
}
