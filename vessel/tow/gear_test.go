package tow

import (
	"fmt"
	"math"
	"testing"
)

// northward tows a gear straight north: the start is the steady tow at from,
// the speed through the water is to.
type northward struct {
	*Gear
	y, speed float64
}

// Uniform is water that moves alike at all depths.
type Uniform struct{ East, North float64 }

// Current implements [Water].
func (u Uniform) Current(float64) (east, north float64) { return u.East, u.North }

func newNorthward(s Spec, from, to, cable, sheave float64, nodes int) *northward {
	return &northward{Gear: newGear(s, sheave, cable, from, 0, 0, 0, nodes), speed: to}
}

func (g *northward) run(dt, seconds float64) {
	for range int(math.Round(seconds / dt)) {
		g.y += g.speed * dt
		g.Step(dt, 0, g.y, Uniform{}, -5000)
	}
}

// The steady equations, integrated along the cable, know nothing of nodes.
func TestSettlesOnTheSteadySolution(t *testing.T) {
	for _, test := range []struct {
		name                 string
		speed, cable, sheave float64
	}{
		{"S", 2, 60, 2}, {"S", 1, 50, 0}, {"S", 3, 150, 0}, {"S", 4, 100, 3},
		{"A", 2, 200, 0}, {"A", 1, 100, 0}, {"A", 3, 300, 0},
		{"P", 2, 500, 0}, {"P", 0.5, 200, 4},
	} {
		s := cases[test.name]
		want := s.Steady(test.speed, test.cable, test.sheave)
		// From a tow at another speed, so that it has a way to go.
		g := newNorthward(s, 0.7*test.speed, test.speed, test.cable, test.sheave, 20)
		g.run(0.1, 12*test.cable/test.speed)
		what := fmt.Sprintf("%s %g m/s %g m: ", test.name, test.speed, test.cable)
		near(t, what+"depth", g.Depth, want.Depth, 0.02)
		near(t, what+"layback", g.Layback, want.Layback, 0.01)
		near(t, what+"tension", g.Tension, want.Tension, 0.01)
		near(t, what+"angle", g.Angle, want.Angle, 0.01)
		if math.Abs(g.Yaw) > 1e-6 {
			t.Errorf("heading of the fish: got %g, want 0", g.Yaw)
		}
	}
}

func TestFinerNodesComeNearer(t *testing.T) {
	s := cases["A"]
	want := s.Steady(2, 200, 0)
	last := math.Inf(1)
	for _, nodes := range []int{10, 20, 40} {
		g := newNorthward(s, 2, 2, 200, 0, nodes)
		g.run(0.1, 600)
		off := math.Abs(g.Depth-want.Depth) / want.Depth
		if off > last/2 {
			t.Errorf("%d nodes: depth off by %.4f, want less than half of %.4f", nodes, off, last)
		}
		last = off
	}
}

// In a steady turn the fish cuts the corner and sinks. Case A with 100 m of
// cable at 2 m/s, computed outside this project with an implicit lumped-mass
// code of 40 segments; the open lumped-mass library MoorDyn has 24.670 m,
// 73.008 m, 433.81 N, 95.598 deg and 190.360 m, 42.642 m, 414.77 N, 25.559 deg.
func TestSteadyTurn(t *testing.T) {
	for _, test := range []struct{ radius, fish, depth, tension, lag float64 }{
		{50, 24.632, 73.081, 433.10, 95.454},
		{200, 190.321, 42.711, 414.70, 25.547},
	} {
		const speed, dt = 2.0, 0.1
		g := newGear(cases["A"], 0, 100, speed, test.radius, 0, 0, 40)
		angle := 0.0
		for range 15000 {
			angle += speed / test.radius * dt
			sin, cos := math.Sincos(angle)
			g.Step(dt, test.radius*cos, test.radius*sin, Uniform{}, -500)
		}
		lag := math.Remainder(angle-math.Atan2(g.Y, g.X), 2*math.Pi) * 180 / math.Pi
		near(t, "radius of the fish", math.Hypot(g.X, g.Y), test.fish, 0.02)
		near(t, "depth", g.Depth, test.depth, 0.02)
		near(t, "tension", g.Tension, test.tension, 0.02)
		near(t, "lag behind the vessel", lag, test.lag, 0.02)
	}
}

// Heave of 0.5 m and 6 s at the sheave of case A with 200 m at 2 m/s, 20
// segments. MoorDyn has a fish heaving 0.1127 m and surging 0.0553 m with a
// tension of 477.8 to 518.9 N; an implicit code computed outside this project
// has the figures below. Both count the tension of the topmost segment at its
// middle: half a segment, 4.6 N, less than at the sheave.
func TestHeaveAtTheSheave(t *testing.T) {
	for _, test := range []struct{ dt, heave float64 }{{0.05, 0.1125}, {0.1, 0.1122}} {
		const (
			amplitude, period, speed = 0.5, 6.0, 2.0
			surging, least, most     = 0.0545, 485.0, 529.0
		)
		g := newGear(cases["A"], 0, 200, speed, 0, 0, 0, 20)
		var depth, surge, tension span
		for i := range int(600 / test.dt) {
			at := float64(i+1) * test.dt
			g.SheaveUp = amplitude * math.Sin(2*math.Pi*at/period)
			g.Step(test.dt, 0, speed*at, Uniform{}, -500)
			if at > 480 {
				depth.take(g.Depth)
				surge.take(g.Y - speed*at)
				tension.take(g.Tension)
			}
		}
		near(t, "heave of the fish", depth.half(), test.heave, 0.02)
		near(t, "surge of the fish", surge.half(), surging, 0.02)
		near(t, "least tension", tension.lo, least, 0.02)
		near(t, "most tension", tension.hi, most, 0.02)
		near(t, "range of tension", 2*tension.half(), most-least, 0.02)
	}
}

type span struct {
	lo, hi float64
	any    bool
}

func (s *span) take(v float64) {
	if !s.any {
		s.lo, s.hi, s.any = v, v, true
	}
	s.lo, s.hi = min(s.lo, v), max(s.hi, v)
}

func (s *span) half() float64 { return (s.hi - s.lo) / 2 }

// Speed steps of case A with 100 m of cable: seconds to 50, 63, 90 and 95 % of
// the way between the steady depths, computed outside this project with an
// implicit lumped-mass code of 20 segments in steps of 0.1 s.
func TestSpeedSteps(t *testing.T) {
	shares := [4]float64{0.50, 0.63, 0.90, 0.95}
	for _, test := range []struct {
		from, to float64
		want     [4]float64
	}{
		{2, 1, [4]float64{35.0, 51.8, 128.1, 170.5}},
		{1, 2, [4]float64{28.1, 38.3, 77.5, 97.2}},
		{2, 3, [4]float64{13.1, 18.7, 40.5, 51.2}},
	} {
		s := cases["A"]
		g := newNorthward(s, test.from, test.from, 100, 0, 20)
		g.run(0.1, 600)
		start, end := s.Steady(test.from, 100, 0).Depth, s.Steady(test.to, 100, 0).Depth
		g.speed = test.to
		var got [4]float64
		for i := 1; got[3] == 0 && i < 6000; i++ {
			g.run(0.1, 0.1)
			done := (g.Depth - start) / (end - start)
			for j, share := range shares {
				if got[j] == 0 && done > share {
					got[j] = float64(i) * 0.1
				}
			}
		}
		for j, share := range shares {
			near(t, fmt.Sprintf("%g to %g m/s, time to %.0f %%", test.from, test.to, 100*share), got[j], test.want[j], 0.03)
		}
	}
}

func TestWinchAndFloor(t *testing.T) {
	s := cases["S"]
	s.Winch = Winch{Rate: 0.5, Min: 2}
	g := New(s, 2, 40, 0, 0, 0, 0)
	g.Ordered = 0
	y := 0.0
	for range 1000 {
		y += 0.2
		g.Step(0.1, 0, y, Uniform{}, -30)
	}
	if g.CableOut != s.Winch.Min {
		t.Errorf("hauled in: %.3f m of cable out, want %.3f", g.CableOut, s.Winch.Min)
	}
	g.Ordered = 100
	for range 4000 {
		y += 0.03
		g.Step(0.1, 0, y, Uniform{}, -12)
	}
	if g.CableOut != 100 || !g.Grounded || g.Depth > 12 || g.Depth < 11.5 {
		t.Errorf("on 12 m of water with %.3f m out: grounded %v at %.2f m", g.CableOut, g.Grounded, g.Depth)
	}
}

// Paid out and hauled back, cut finer and coarser on the way, the tow ends
// where a tow of that length settles.
func TestWindingForgets(t *testing.T) {
	s := cases["S"]
	s.Winch = Winch{Rate: 0.5, Min: 2}
	for _, cable := range []float64{15, 40, 130} {
		g := newNorthward(s, 2, 2, 50, 2, usualNodes)
		for _, ordered := range []float64{200, 4, cable} {
			g.Ordered = ordered
			g.run(0.1, 800)
		}
		want := s.Steady(2, cable, 2)
		near(t, "depth", g.Depth, want.Depth, 0.02)
		near(t, "layback", g.Layback, want.Layback, 0.01)
		near(t, "tension", g.Tension, want.Tension, 0.01)
		if n := g.cable.n; n < fewestNodes || n > mostNodes {
			t.Errorf("%g m of cable in %d segments, want %d to %d", cable, n, fewestNodes, mostNodes)
		}
	}
}

// A current is a moving frame: a tow drifting with the water is the same tow.
func TestCurrentIsAMovingFrame(t *testing.T) {
	still, moving := New(cases["A"], 2, 80, 2, 0, 0, 0), New(cases["A"], 2, 80, 2, 0, 0, 0)
	const cx, cy = 0.7, -0.4
	for i := range moving.cable.n + 1 {
		moving.cable.vel[i] = moving.cable.vel[i].plus(vec{cx, cy, 0})
	}
	moving.way = moving.way.plus(vec{cx, cy, 0})
	course, x, y := 0.0, 0.0, 0.0
	for i := range 2000 {
		course += 0.003
		x += 0.2 * math.Sin(course)
		y += 0.2 * math.Cos(course)
		at := float64(i+1) * 0.1
		still.Step(0.1, x, y, Uniform{}, -500)
		moving.Step(0.1, x+cx*at, y+cy*at, Uniform{cx, cy}, -500)
		if dx, dy := moving.X-cx*at-still.X, moving.Y-cy*at-still.Y; math.Hypot(dx, dy) > 1e-3 || math.Abs(moving.Depth-still.Depth) > 1e-3 {
			t.Fatalf("after %.1f s in the current the fish is %.5f, %.5f m from where it was in still water", at, dx, dy)
		}
	}
}

func TestStepAllocatesNothing(t *testing.T) {
	s := cases["A"]
	s.Winch = Winch{Rate: 0.5, Min: 2}
	g := newNorthward(s, 2, 2, 60, 2, usualNodes)
	g.Ordered = 300
	if n := testing.AllocsPerRun(100, func() { g.run(0.1, 10) }); n != 0 {
		t.Errorf("got %g allocations, want none", n)
	}
}

// A circle of 50 m.
func BenchmarkStep(b *testing.B) {
	s := cases["A"]
	g := newGear(s, 2, 100, 2, 0, 0, 0, 20)
	at, angle := 0.0, 0.0
	b.ReportAllocs()
	for b.Loop() {
		at += 0.1
		angle += 2.0 / 50 * 0.1
		sin, cos := math.Sincos(angle)
		g.Step(0.1, 50*cos, 50*sin, Uniform{}, -500)
	}
}
