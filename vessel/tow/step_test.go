package tow

import (
	"math"
	"testing"
)

// drive is how a tow is driven for five minutes while its sheave heaves by 0.3 m in 6 s.
type drive struct {
	name  string
	gear  string
	turn  func(at float64) float64                // rad/s
	order func(at float64) (cable, speed float64) // metres, m/s

	// Errors of the tree before (7c72acb), which stepped by 0.1 s, to three digits, in this test:
	// depth and layback in metres,
	// heading in radians, tension in N.
	rms, worst [4]float64
}

var drives = []drive{
	{
		"turns", "A",
		func(at float64) float64 {
			switch {
			case at > 60 && at < 140:
				return 0.05
			case at > 180 && at < 240:
				return -0.04
			}
			return 0
		},
		func(float64) (float64, float64) { return 60, 2 },
		[4]float64{0.0278, 0.0277, 0.000815, 2.59}, [4]float64{0.0618, 0.0685, 0.00351, 137},
	},
	{
		"orders to the winch", "S",
		func(float64) float64 { return 0 },
		func(at float64) (float64, float64) {
			speed := 2 + 0.5*(ramp(at-20, 10)-ramp(at-120, 10))
			switch {
			case at > 220:
				return 60, speed
			case at > 120:
				return 25, speed
			case at > 20:
				return 95, speed
			}
			return 60, speed
		},
		[4]float64{0.00551, 0.00195, 0.000243, 3.16}, [4]float64{0.0199, 0.0115, 0.00355, 96},
	},
}

// ramp rises from 0 to 1 in so many seconds.
func ramp(at, seconds float64) float64 { return min(max(at/seconds, 0), 1) }

// pieces are those of the fine run in a tick.
const pieces = 50

// fly tows a gear through it in ticks of 0.1 s, or in pieces of them, and tells of every
// tick. The sheave's way is the same.
func (d *drive) fly(finely bool, tell func(*Gear)) {
	s := finned()
	s.Cable = cases[d.gear].Cable
	s.Winch = Winch{Rate: 0.5, Min: 2}
	g := newGear(s, 2, 60, 2, 0, 0, 0, usualNodes)
	x, y, course := 0.0, 0.0, 0.0
	const dt = 0.1 / pieces
	water := Uniform{0.2, -0.1}
	for i := range 3000 * pieces {
		at := float64(i) * dt
		cable, speed := d.order(at)
		course += d.turn(at) * dt
		sin, cos := math.Sincos(course)
		x, y = x+speed*sin*dt, y+speed*cos*dt
		if i%pieces == 0 {
			g.Ordered = cable
		}
		g.SheaveUp = 2 + 0.3*ramp(at, 10)*math.Sin(2*math.Pi*(at+dt)/6)
		ended := (i+1)%pieces == 0
		if finely {
			g.Step(dt, x, y, water, -120)
		} else if ended {
			g.Step(0.1, x, y, water, -120)
		}
		if ended {
			tell(g)
		}
	}
}

// Ticks of 0.1 s against the same in 50 pieces of 2 ms, no worse than the tree before was.
func TestAgainstAMuchFinerStep(t *testing.T) {
	if testing.Short() {
		t.Skip("takes 3000 ticks of 50 steps, twice")
	}
	for _, d := range drives {
		of := func(finely bool) (rows [][4]float64) {
			d.fly(finely, func(g *Gear) { rows = append(rows, [4]float64{g.Depth, g.Layback, g.Yaw, g.Tension}) })
			return rows
		}
		fine, got := of(true), of(false)
		for k, what := range []string{"depth", "layback", "heading", "tension"} {
			sum, worst := 0.0, 0.0
			for i := range fine {
				e := got[i][k] - fine[i][k]
				if what == "heading" {
					e = math.Remainder(e, 2*math.Pi)
				}
				sum += e * e
				worst = max(worst, math.Abs(e))
			}
			rms := math.Sqrt(sum / float64(len(fine)))
			t.Logf("%s, %s: off by %.3g rms, %.3g at worst; before %.3g and %.3g", d.name, what, rms, worst, d.rms[k], d.worst[k])
			if rms > d.rms[k] || worst > d.worst[k] {
				t.Errorf("%s, %s: off by %.3g rms, %.3g at worst, want no more than %.3g and %.3g", d.name, what, rms, worst, d.rms[k], d.worst[k])
			}
		}
	}
}

// plainly takes a step as plainly as it goes: from where the velocities alone carry the
// nodes, no segment taken for what it was, until nothing moves any more.
func (c *cable) plainly(t *testing.T, h float64, sheave vec) {
	n := c.n
	for i := range n {
		c.was[i] = c.at[i]
		c.at[i] = c.at[i].plus(c.vel[i].times(h))
	}
	c.was[n] = c.at[n]
	c.vel[n] = sheave.minus(c.at[n]).times(1 / h)
	c.at[n] = sheave
	for range 400 {
		c.assemble(h, false)
		if c.solve() < 1e-12 {
			c.loadEnds(h)
			return
		}
	}
	t.Fatal("the plain step does not settle")
}

// A step ends where the plain one does, whatever it is begun with and however soon it
// stops.
func TestStepsEndWhereThePlainOneDoes(t *testing.T) {
	for _, d := range drives {
		var plain cable
		worst, pull, ticks := 0.0, 0.0, 0
		d.fly(false, func(g *Gear) {
			c := &g.cable
			if ticks++; ticks%7 != 0 {
				return
			}
			sheave := c.at[c.n].plus(c.vel[c.n].times(longestStep))
			plain = *c
			plain.plainly(t, longestStep, sheave)
			step := *c
			step.step(longestStep, sheave)
			for i := range c.n {
				worst = max(worst, step.at[i].minus(plain.at[i]).length())
			}
			pull = max(pull, step.tug.minus(plain.tug).length())
		})
		t.Logf("%s: %.2g m, %.2g N", d.name, worst, pull)
		if worst > 2e-6 || pull > 0.01 {
			t.Errorf("%s: a node is %.2g m from where the plain step has it and the pull %.2g N off, want within 2 micrometres and 0.01 N", d.name, worst, pull)
		}
	}
}
