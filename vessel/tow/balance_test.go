package tow

import (
	"math"
	"testing"
)

// settle lets the fish swing under a steady pull and flow until it lies still.
func settle(s Spec, trim, flow vec, pull vec) Attitude {
	p := s.poise(trim.length(), 0)
	for range 20000 {
		p.step(0.05, pull, flow)
	}
	return p.attitude()
}

// Where the three moments balance (statics): with F = 1/2 rho U^2 S a l per
// radian of the fins, a = pi/2 (R. T. Jones, NACA Report 835, 1946, aspect ratio
// 1) and l 0.4 of the length, a pull (X, Y, Z) at x forward and h above the middle
//
//	Z (x - h theta) - X h + F (gamma + fins - theta) = 0
//	(Y - X psi) x + F (chi - psi) = 0 ,  tan(phi) = (Y - X psi)/Z
//
// with the pull said as it is to a body that lies straight, and small angles in
// the second: a flow climbing by gamma turns the nose up by F gamma/(F + Z h), a
// pull to starboard forward of the middle the bow to starboard.
func TestFishLiesWhereItsMomentsBalance(t *testing.T) {
	s := finned()
	s.Fish.TowForward = 0.05
	const u = 2.0
	fins := 0.5 * 1025 * u * u * 0.05 * math.Pi / 2 * 0.4 * 1.3
	ahead := vec{0, u, 0}
	east := math.Atan2(0.3, u) // a course
	yaw := func(y, course float64) float64 { return (y*0.05 + fins*course) / (fins + 100*0.05) }
	roll := func(y, yaw float64) float64 { return math.Atan2(y-100*yaw, 300) }
	level := settle(s, ahead, ahead, vec{0, 100, 300})
	for _, row := range []struct {
		name             string
		flow, pull       vec
		pitch, yaw, roll float64 // besides that of the level tow
	}{
		{"rising", vec{0, u, 0.1}, vec{0, 100, 300}, fins * math.Atan2(0.1, u) / (fins + 300*0.12), 0, 0},
		{"sinking", vec{0, u, -0.2}, vec{0, 100, 300}, -fins * math.Atan2(0.2, u) / (fins + 300*0.12), 0, 0},
		{"pulled harder ahead", ahead, vec{0, 150, 300}, -50 * 0.12 / (fins + 300*0.12), 0, 0},
		{"pulled to starboard", ahead, vec{60, 100, 300}, -60 * yaw(60, 0) * 0.12 / (fins + 300*0.12), yaw(60, 0), roll(60, yaw(60, 0))},
		{"pulled to port", ahead, vec{-30, 100, 300}, 0, yaw(-30, 0), roll(-30, yaw(-30, 0))},
		{"going to the east of north", vec{0.3, u, 0}, vec{0, 100, 300}, 0, yaw(0, east), roll(0, yaw(0, east))},
	} {
		got := settle(s, ahead, row.flow, row.pull)
		const within = 0.02 // the flow is a little faster on a slope
		for _, c := range []struct {
			name      string
			got, want float64
		}{{"pitch", got.Pitch - level.Pitch, row.pitch}, {"yaw", got.Yaw, row.yaw}, {"roll", got.Roll, row.roll}} {
			if math.Abs(c.got-c.want) > within*math.Abs(c.want)+1e-3 {
				t.Errorf("%s: %s %.4f rad, want %.4f", row.name, c.name, c.got, c.want)
			}
		}
	}
}

// The nodding of a fish whose sheave heaves, against the equation of its pitch
//
//	I theta'' = Z (x - h theta) - X h + F (gamma + fins - theta) - C theta'
//
// put through small explicit steps with the pull and the flow of the tow; I, F
// and C = F l/U as the doc of Attitude has them, by hand. It nods by some degrees,
// nose up as it is drawn up.
func TestHeaveMakesTheFishNod(t *testing.T) {
	s := finned()
	f := &s.Fish
	const speed = 2.0
	g := newNorthward(s, speed, speed, 30, 2, usualNodes)
	displaced := f.Mass - f.Weight/9.81
	arm := 0.4 * f.Length
	inertia := (f.Mass + displaced) * f.Length * f.Length / 12
	fins := 0.5 * 1025 * f.FinArea * math.Pi / 2 * arm // over U^2
	theta, rate := g.Pitch, 0.0
	set := g.poise.fins
	var nods, wants, climbs span
	together, alone := 0.0, 0.0
	const tick = longestStep // one step each
	for i := range int(120 / tick) {
		at := float64(i) * tick
		g.SheaveUp = 2 + 0.5*math.Sin(2*math.Pi*at/4)
		g.run(tick, tick)
		pull, flow := g.cable.hold, g.cable.vel[0]
		u := flow.length()
		climb := math.Atan2(flow.z, math.Hypot(flow.x, flow.y))
		for range pieces {
			moment := pull.z*(f.TowForward-f.TowAbove*theta) - pull.y*f.TowAbove + fins*u*u*(climb+set-theta) -
				(fins*arm*u+stillSlow*inertia)*rate
			rate += moment / inertia * tick / pieces
			theta += rate * tick / pieces
		}
		if at > 60 {
			nods.take(g.Pitch)
			wants.take(theta)
			climbs.take(climb)
			together += (g.Pitch - f.Pitch) * climb
			alone += climb * climb
			if math.Abs(g.Pitch-theta) > 0.002 {
				t.Fatalf("at %.1f s: pitch %.4f rad, the equation %.4f", at, g.Pitch, theta)
			}
		}
	}
	near(t, "nodding", nods.half(), wants.half(), 0.02)
	if degrees := nods.half() * 180 / math.Pi; degrees < 1 || degrees > 25 {
		t.Errorf("the fish nods %.2f degrees to half a metre of heave, want degrees, not none and not a tumble", degrees)
	}
	if together < 0.5*alone {
		t.Errorf("the nose goes %.2f of the climb with it, want up as the fish is drawn up", together/alone)
	}
}
