package tow

import (
	"math"
	"testing"
)

// What the cable does to the sheave: it pulls towards the fish, level as much
// as the steady solution says (T cos phi, all the drag of cable and fish), on
// whatever heading, from the first moment on.
func TestTheCablePullsTowardsTheFish(t *testing.T) {
	const speed, cable, up = 2.0, 60.0, 2.0
	for _, name := range []string{"S", "A"} {
		s := cases[name]
		shape := s.Steady(speed, cable, up)
		level := shape.Tension * math.Cos(shape.Angle)
		for _, heading := range []float64{0, 1, 2.5, -2, -0.7} {
			sin, cos := math.Sincos(heading)
			g := New(s, up, cable, speed, 100, -50, heading)
			x, y := 100.0, -50.0
			check := func(when string, rel float64) {
				t.Helper()
				dx, dy := g.X-x, g.Y-y
				off := math.Hypot(dx, dy)
				along := (g.PullX*dx + g.PullY*dy) / off
				across := (g.PullX*dy - g.PullY*dx) / off
				near(t, name+" pull towards the fish "+when, along, level, rel)
				if math.Abs(across) > 1e-6*level {
					t.Errorf("%s heading %.1f %s: the pull lies %.3g N aside of the fish", name, heading, when, across)
				}
			}
			check("at the start", 1e-9)
			for i := range 3000 {
				x, y = 100+speed*0.1*float64(i+1)*sin, -50+speed*0.1*float64(i+1)*cos
				g.Step(0.1, x, y, Uniform{}, -500)
			}
			check("when settled", 0.015) // of twenty segments
			near(t, "level share of the tension", math.Hypot(g.PullX, g.PullY), g.Tension*math.Cos(g.Angle), 1e-9)
		}
	}
}

// In a turn the fish cuts the corner, and the cable pulls the stern aside, into
// the circle.
func TestInATurnTheCablePullsInward(t *testing.T) {
	const radius, speed = 50.0, 2.0
	for _, way := range []float64{1, -1} { // to starboard, to port
		g := New(cases["S"], 2, 60, speed, 0, 0, 0)
		for i := range 3000 {
			a := speed / radius * 0.1 * float64(i+1)
			g.Step(0.1, way*radius*(1-math.Cos(a)), radius*math.Sin(a), Uniform{}, -500)
		}
		a := speed / radius * 300
		inX, inY := way*math.Cos(a), -math.Sin(a) // from the sheave to the middle
		aheadX, aheadY := way*math.Sin(a), math.Cos(a)
		if in, ahead := g.PullX*inX+g.PullY*inY, g.PullX*aheadX+g.PullY*aheadY; in < 50 || ahead > -50 {
			t.Errorf("turning %+g: pull %.0f N inward and %.0f N ahead, want both tens of newtons, in and aft", way, in, ahead)
		}
	}
}

// The start is the steady tow itself: fish and nodes on its curve, however light
// the fish, each segment as long as the cable in it but for its bend.
func TestTheStartIsTheSteadyTow(t *testing.T) {
	light := featherweight
	for _, test := range []struct {
		name                 string
		spec                 Spec
		speed, cable, sheave float64
	}{
		{"soft", cases["S"], 2, 60, 2}, {"armoured", cases["A"], 3, 300, 0}, {"sled", cases["P"], 1, 500, 4},
		{"next to no fish", light, 5, 600, 2}, {"the same, short", light, 3, 20, 1},
	} {
		shape := test.spec.Steady(test.speed, test.cable, test.sheave)
		g := New(test.spec, test.sheave, test.cable, test.speed, 7, 8, 0)
		if off := math.Hypot(g.Depth-shape.Depth, g.Layback-shape.Layback); off > 2e-3*test.cable {
			t.Errorf("%s: starts %.3f m down and %.3f m astern, the steady tow has %.3f and %.3f", test.name, g.Depth, g.Layback, shape.Depth, shape.Layback)
		}
		c := &g.cable
		for i := range c.n {
			long := c.at[i+1].minus(c.at[i]).length()
			if rest := c.rest(i) * 1.01; long > rest || long < 0.9*c.rest(i) {
				t.Errorf("%s: segment %d is %.3f m of %.3f", test.name, i, long, c.rest(i))
			}
			if c.at[i+1].z < c.at[i].z-1e-9 {
				t.Errorf("%s: node %d hangs below the one nearer the fish", test.name, i+1)
			}
		}
	}
}
