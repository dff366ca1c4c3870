package tow

import (
	"math"
	"testing"

	"dryline/seabed/units"

	"pgregory.net/rapid"
)

// drawTow draws any tow that dryline calc tow takes: numbers that may be
// nothing are so now and then, and the others spread over their decades.
func drawTow(t *rapid.T) (s Spec, speed, cable, sheave float64) {
	decades := func(name string, lo, hi float64) float64 {
		return math.Exp(rapid.Float64Range(math.Log(lo), math.Log(hi)).Draw(t, name))
	}
	orNone := func(name string, lo, hi float64) float64 {
		if rapid.IntRange(0, 4).Draw(t, "no "+name) == 0 {
			return 0
		}
		return decades(name, lo, hi)
	}
	s.Cable = Cable{
		Diameter: decades("diameter", 0.001, 0.1), Weight: orNone("weight", 1e-3, 200),
		Normal: orNone("cn", 0.01, 5), Tangential: orNone("ct", 1e-4, 0.2),
	}
	s.Fish = Fish{Weight: decades("fish weight", 1e-3, 1e5), DragArea: orNone("drag area", 1e-5, 10)}
	return s, orNone("speed", 0.01, 20*units.Knot), decades("cable", 0.1, 15000), orNone("sheave", 0.1, 50)
}

// Anything that calc takes hangs below the sheave and trails behind it, no
// further off than its cable is long.
func TestAnyTowHasAShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, speed, cable, sheave := drawTow(t)
		shape := s.Steady(speed, cable, sheave)
		for _, v := range []float64{shape.Depth, shape.Layback, shape.Tension, shape.Angle} {
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
				t.Fatalf("shape %+v", shape)
			}
		}
		if shape.Angle > math.Pi/2*(1+1e-12) {
			t.Fatalf("the cable leaves the sheave at %.6f deg, beyond straight down", shape.Angle*180/math.Pi)
		}
		if chord := math.Hypot(shape.Layback, shape.Depth+sheave); shape.Depth > 0 && chord > cable*(1+1e-9) {
			t.Fatalf("the fish is %.3f m from the sheave on %.3f m of cable", chord, cable)
		}
		// Nothing but drag along the cable and its weight adds to the tension.
		l := s.loads(speed)
		most := math.Hypot(l.drag, l.down) + cable*(l.weight+s.material().mass*gravity+l.tangential)
		if shape.Tension > most*(1+1e-9) {
			t.Fatalf("tension %.6g N, more than all there is to pull, %.6g", shape.Tension, most)
		}
	})
}

// brute runs the cable in small steps of a fixed share of tension over all
// the force there is on a metre, by the midpoint rule and with no short cut, or
// gives up.
func brute(l loads, length float64) (at link, ok bool) {
	at = l.atFish()
	coarsest := length / 1000
	for range 300000 {
		ds := min(at.tension/(400*(l.normal+l.weight+l.tangential)), coarsest, length)
		at = at.plus(ds, l.slope(at.plus(ds/2, l.slope(at))))
		if length -= ds; length <= 0 {
			return at, true
		}
	}
	return at, false
}

// The steps the solver chooses are fine enough: against far more of them.
func TestSteadyAgainstFarMoreSteps(t *testing.T) {
	const rel = 2e-5
	compare := func(t interface{ Errorf(string, ...any) }, s Spec, speed, cable float64) bool {
		want, ok := brute(s.loads(speed), cable)
		if !ok {
			return false
		}
		got := s.Steady(speed, cable, 0)
		chord := math.Hypot(want.x, want.z)
		off := math.Hypot(got.Depth-want.z, got.Layback-want.x)
		if off > rel*chord || math.Abs(got.Depth-want.z) > 1e-4*want.z || math.Abs(got.Tension-want.tension) > rel*want.tension || math.Abs(got.Angle-want.angle) > rel {
			t.Errorf("%+v %+v, %.4g m/s, %.5g m: got %+v, with far more steps %+v", s.Cable, s.Fish, speed, cable, got, want)
		}
		return true
	}
	for _, test := range []struct {
		name         string
		spec         Spec
		speed, cable float64
	}{
		{"next to no fish, fast", featherweight, 10 * units.Knot, 600},
		{"heavy cable, next to no fish", Spec{
			Cable: Cable{Diameter: 0.0173, Weight: 8.89, Normal: 1.5, Tangential: 0.01}, Fish: Fish{Weight: 1},
		}, 12 * units.Knot, 100},
		{"light fish without drag", Spec{
			Cable: Cable{Diameter: 0.0104, Weight: 0.5, Normal: 1.2, Tangential: 0.01}, Fish: Fish{Weight: 20},
		}, 3, 600},
		{"light fish", Spec{
			Cable: Cable{Diameter: 0.0104, Weight: 0.5, Normal: 1.2, Tangential: 0.01}, Fish: Fish{Weight: 20, DragArea: 0.001},
		}, 6, 300},
		{"light fish of great drag", Spec{
			Cable: Cable{Diameter: 0.1, Weight: 2.7, Normal: 5}, Fish: Fish{Weight: 2.7, DragArea: 2.7},
		}, 2.7, 90},
	} {
		t.Run(test.name, func(t *testing.T) {
			if !compare(t, test.spec, test.speed, test.cable) {
				t.Fatal("the reference did not get there")
			}
		})
	}
	compared, drawn := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s, speed, cable, _ := drawTow(t)
		drawn++
		if compare(t, s, speed, cable) {
			compared++
		}
	})
	if compared < 3*drawn/10 { // fewer are drawn in short
		t.Errorf("only %d tows of %d compared", compared, drawn)
	}
}

// At rest the fish hangs straight below with the weight of all under the
// sheave; ever faster it comes up to the surface a whole cable astern (limits of
// the steady equations; exact).
func TestSteadyAtRestAndVeryFast(t *testing.T) {
	for name, s := range cases {
		rest := s.Steady(0, 100, 0)
		near(t, name+" depth at rest", rest.Depth, 100, 1e-6)
		near(t, name+" tension at rest", rest.Tension, s.Fish.Weight+100*s.Cable.Weight, 1e-6)
		near(t, name+" angle at rest", rest.Angle, math.Pi/2, 1e-6)
		if rest.Layback > 1e-6*100 {
			t.Errorf("%s: layback %g m at rest, want none", name, rest.Layback)
		}
		last := s.Steady(10, 100, 0)
		for _, speed := range []float64{100, 1e3, 1e4, 1e5} {
			fast := s.Steady(speed, 100, 0)
			// Slopes fall as 1/U: ten times the speed, a tenth of the depth.
			if fast.Depth > 0.2*last.Depth {
				t.Errorf("%s: depth %.3g m at %g m/s after %.3g, want it to vanish", name, fast.Depth, speed, last.Depth)
			}
			last = fast
		}
		near(t, name+" layback at any speed", last.Layback, 100, 1e-6)
		if last.Depth > 1e-6*100*10 {
			t.Errorf("%s: depth %.3g m in the limit, want none", name, last.Depth)
		}
	}
}

// A cable with nothing at its end tows straight at the critical angle, its
// tension nothing there and w sin + F cos^2 more with every metre (exact), and a
// fish of next to nothing tows as that.
func TestBareCableIsStraight(t *testing.T) {
	for name, s := range cases {
		for _, speed := range []float64{0, 0.5, 2, 5} {
			crit := s.CriticalAngle(speed)
			sin, cos := math.Sincos(crit)
			for _, weight := range []float64{0, 1e-9} {
				s.Fish = Fish{Weight: weight}
				l, got := s.loads(speed), s.Steady(speed, 100, 0)
				near(t, name+" depth", got.Depth, 100*sin, 1e-6)
				near(t, name+" angle", got.Angle, crit, 1e-6)
				near(t, name+" tension", got.Tension, 100*(l.weight*sin+l.tangential*cos*cos), 1e-6)
				if math.Abs(got.Layback-100*cos) > 1e-4 {
					t.Errorf("%s: layback %.6f m, want %.6f", name, got.Layback, 100*cos)
				}
			}
		}
	}
}

// The shape depends only on the ratios of weights to dynamic pressure: twice
// the weights and sqrt 2 of the speed leave it as it is and double the tension
// (dimensional analysis, exact).
func TestSteadyScales(t *testing.T) {
	for name, s := range cases {
		for _, speed := range []float64{0.5, 2, 5} {
			for _, weightless := range []bool{false, true} {
				a := s
				if weightless {
					a.Cable.Weight = 0
				}
				b := a
				b.Fish.Weight, b.Cable.Weight = 2*a.Fish.Weight, 2*a.Cable.Weight
				was, is := a.Steady(speed, 150, 0), b.Steady(speed*math.Sqrt2, 150, 0)
				near(t, name+" depth", is.Depth, was.Depth, 1e-9)
				near(t, name+" layback", is.Layback, was.Layback, 1e-9)
				near(t, name+" angle", is.Angle, was.Angle, 1e-9)
				near(t, name+" tension", is.Tension, 2*was.Tension, 1e-9)
			}
		}
	}
}
