package tow

import (
	"math"
	"testing"
)

// Step response of a damped oscillator (J. P. Den Hartog, Mechanical
// Vibrations, 1956, 2.7, and any textbook): overshoot exp(-pi z/sqrt(1-z^2)) a
// half period pi/(w sqrt(1-z^2)) after the step.
func TestSwingAnswersAStep(t *testing.T) {
	for _, z := range []float64{0.05, 0.2, 0.5, 0.9} {
		const w = 3.0
		half := math.Pi / (w * math.Sqrt(1-z*z))
		want := 1 + math.Exp(-math.Pi*z/math.Sqrt(1-z*z))
		for _, steps := range []int{1, 2, 100} {
			var s swing
			for range steps {
				s.step(half/float64(steps), w*w, 2*z*w, 1)
			}
			if math.Abs(s.angle-want) > 1e-12 || math.Abs(s.rate) > 1e-12 {
				t.Errorf("damping %g in %d steps: got %.15f at %.1e/s, want %.15f at rest", z, steps, s.angle, s.rate, want)
			}
		}
	}
}

// Critical and heavy damping, against x(t) = 1 - (1 + w t) exp(-w t) and the
// sum of two exponentials.
func TestSwingCreepsWhenDampedHard(t *testing.T) {
	const w, at = 2.0, 0.7
	var s swing
	s.step(at, w*w, 2*w, 1)
	if want := 1 - (1+w*at)*math.Exp(-w*at); math.Abs(s.angle-want) > 1e-9 {
		t.Errorf("critical: got %.12f, want %.12f", s.angle, want)
	}
	s = swing{}
	a, b := w*(2-math.Sqrt(3)), w*(2+math.Sqrt(3)) // damping twice critical
	s.step(at, w*w, 4*w, 1)
	if want := 1 - (b*math.Exp(-a*at)-a*math.Exp(-b*at))/(b-a); math.Abs(s.angle-want) > 1e-12 {
		t.Errorf("heavy: got %.12f, want %.12f", s.angle, want)
	}
}

// finned is an inshore fish that swings.
func finned() Spec {
	s := cases["S"]
	s.Fish = Fish{
		Weight: 260, DragArea: 0.022, Mass: 40, Pitch: math.Pi / 180,
		Length: 1.3, FinArea: 0.05, TowForward: 0.01, TowAbove: 0.12,
	}
	s.Winch = Winch{Rate: 0.4, Min: 2}
	return s
}

// A fish of good trim tows about one degree nose up (common practice, no
// source); set so, it keeps it in a straight tow at that speed, and does not
// roll or yaw.
func TestFishKeepsItsTrim(t *testing.T) {
	g := newNorthward(finned(), 2, 2, 40, 2, usualNodes)
	g.run(0.1, 120)
	if got := g.Pitch * 180 / math.Pi; math.Abs(got-1) > 0.1 {
		t.Errorf("pitch %.3f degrees, want the trim of 1", got)
	}
	if math.Abs(g.Roll) > 1e-9 || math.Abs(g.Yaw) > 1e-9 {
		t.Errorf("roll %g and yaw %g on a straight tow, want none", g.Roll, g.Yaw)
	}
	// Faster, the drag at the tow point above the body puts the nose down.
	g.speed = 3
	g.run(0.1, 120)
	if g.Pitch*180/math.Pi > 0.9 {
		t.Errorf("pitch at 3 m/s %.3f degrees, want the nose lower than at 2 m/s", g.Pitch*180/math.Pi)
	}
}

// Turned out of the flow and let go, the body swings back with the frequency
// of its fins, w^2 = (1/2 rho S a l/I) U^2: in the same distance run at any
// speed.
func TestFishIsAWeathervane(t *testing.T) {
	s := finned()
	for _, u := range []float64{1.5, 3} {
		s.Fish.TowForward = 0
		p := s.poise(u, 0)
		p.yaw.angle = 0.1
		const dt = 0.001
		run, before := 0.0, p.yaw.angle
		for before > 0 {
			p.step(dt, vec{0, 200, 200}, vec{0, u, 0})
			before = p.yaw.angle
			run += u * dt
		}
		inertia := (40 + (40 - 260/9.81)) * 1.3 * 1.3 / 12
		w2 := 0.5 * 1025 * 0.05 * math.Pi / 2 * 0.4 * 1.3 / inertia // per metre run, squared
		c := (w2*0.4*1.3 + stillSlow/u) / 2
		d := math.Sqrt(w2 - c*c)
		want := (math.Pi - math.Atan(d/c)) / d // first crossing of zero
		if math.Abs(run-want) > 0.02*want {
			t.Errorf("at %g m/s straight after %.3f m, want %.3f m", u, run, want)
		}
	}
}

// In a turn to starboard the cable leans the fish inward and the body points
// where it goes.
func TestFishLeansInATurn(t *testing.T) {
	g := New(finned(), 2, 40, 2, 0, 0, 0)
	const radius, speed = 50.0, 2.0
	for i := range 3000 {
		a := speed / radius * 0.1 * float64(i+1)
		g.Step(0.1, radius*(1-math.Cos(a)), radius*math.Sin(a), Uniform{}, -100)
	}
	if g.Roll <= 0.01 {
		t.Errorf("roll %.4f rad in a turn to starboard, want starboard side down", g.Roll)
	}
	course := math.Atan2(g.VX, g.VY)
	if off := math.Abs(math.Remainder(g.Yaw-course, 2*math.Pi)); off > 0.1 {
		t.Errorf("the body lies %.3f rad off its course, want it near", off)
	}
}

func TestDepressorTakesTheFishDown(t *testing.T) {
	s := finned()
	plain := s.Steady(3, 60, 2)
	s.Fish.Depressor = 0.08
	want := s.Steady(3, 60, 2)
	if want.Depth < plain.Depth+3 {
		t.Errorf("depth %.2f m with a depressor and %.2f without, want it much deeper", want.Depth, plain.Depth)
	}
	g := newNorthward(s, 2, 3, 60, 2, usualNodes)
	g.run(0.1, 200)
	near(t, "depth with a depressor", g.Depth, want.Depth, 0.02)
}

// A current in the deep water only carries the fish sideways, and less than
// one at all depths.
func TestCurrentByDepth(t *testing.T) {
	aside := func(w Water) float64 {
		g := newNorthward(finned(), 2, 2, 40, 2, usualNodes)
		for range 1500 {
			g.y += g.speed * 0.1
			g.Step(0.1, 0, g.y, w, -500)
		}
		return g.X
	}
	all, deep := aside(Uniform{East: 0.4}), aside(below{10, 0.4})
	if !(deep > 0.3 && deep < 0.9*all) {
		t.Errorf("carried %.2f m by a current below 10 m and %.2f m by one at all depths", deep, all)
	}
}

type below struct{ depth, east float64 }

func (b below) Current(z float64) (east, north float64) {
	if z < -b.depth {
		return b.east, 0
	}
	return 0, 0
}
