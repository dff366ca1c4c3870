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
