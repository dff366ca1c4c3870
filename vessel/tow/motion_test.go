package tow

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// energy is kinetic, of height in still water, and of stretch.
func (l *line) energy() float64 {
	e := 0.0
	node := func(i int, mass, weight float64) {
		e += 0.5*mass*l.vel[i].dot(l.vel[i]) + weight*l.at[i].z
	}
	node(0, l.fishMass, l.fishWeight)
	for i := range l.n {
		half := 0.5 * l.rest(i)
		t := l.at[i+1].minus(l.at[i])
		long := t.length()
		t = t.times(1 / long)
		for j := i; j <= i+1; j++ {
			node(j, half*l.mass, half*(l.mass-l.displaced)*gravity)
			across := l.vel[j].minus(t.times(l.vel[j].dot(t)))
			e += 0.5 * half * l.displaced * across.dot(across)
		}
		if x := long - l.rest(i); x > 0 {
			e += 0.5 * l.stiffness / l.rest(i) * x * x
		}
	}
	return e
}

// A tow let go at a standstill swings down in still water; nothing may make it
// swing harder.
func TestEnergyDoesNotGrow(t *testing.T) {
	for name, s := range cases {
		for _, speed := range []float64{0, 1, 3} {
			g := newGear(s, 0, 100, speed, 0, 0, 0, 20)
			l := &g.line
			for i := range l.n {
				l.vel[i] = vec{}
			}
			last, worst := l.energy(), 0.0
			first := last
			for range 3000 {
				g.Step(0.1, 0, 0, Uniform{}, -5000)
				e := l.energy()
				worst = max(worst, e-last)
				last = e
			}
			if worst > 1e-6 {
				t.Errorf("case %s from %g m/s: energy grew by %.3g J in a step", name, speed, worst)
			}
			if speed > 0 && last > first-s.Fish.Weight/2 {
				t.Errorf("case %s from %g m/s: energy went from %.6g to %.6g J, want the fish swung down", name, speed, first, last)
			}
		}
	}
}

func (g *Gear) sound() bool {
	for _, v := range []float64{g.Tension, g.Angle, g.PullX, g.PullY, g.X, g.Y, g.Depth, g.VX, g.VY, g.Layback, g.Yaw, g.Pitch, g.Roll, g.YawRate, g.PitchRate, g.RollRate} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

func TestMotionNeverBreaks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := cases[rapid.SampledFrom([]string{"S", "A", "P"}).Draw(t, "case")]
		if rapid.Bool().Draw(t, "swings") {
			s.Fish.Length, s.Fish.FinArea = 1.3, rapid.Float64Range(0, 0.2).Draw(t, "fins")
			s.Fish.TowForward, s.Fish.TowAbove = rapid.Float64Range(-0.2, 0.2).Draw(t, "forward"), rapid.Float64Range(0, 0.3).Draw(t, "above")
			s.Fish.Depressor = rapid.Float64Range(0, 0.2).Draw(t, "depressor")
		}
		s.Cable.Length = 600
		s.Winch = Winch{Rate: rapid.Float64Range(0, 3).Draw(t, "rate"), Min: rapid.Float64Range(0.5, 5).Draw(t, "min")}
		cable := rapid.Float64Range(0, 600).Draw(t, "cable")
		sheave := rapid.Float64Range(0, 6).Draw(t, "sheave")
		g := New(s, sheave, cable, rapid.Float64Range(0, 6.2).Draw(t, "start"), 0, 0, 0)
		x, y, course := 0.0, 0.0, 0.0
		floor := -rapid.Float64Range(1, 300).Draw(t, "depth of water")
		cx, cy := rapid.Float64Range(-2, 2).Draw(t, "cx"), rapid.Float64Range(-2, 2).Draw(t, "cy")
		dt := rapid.SampledFrom([]float64{0.02, 0.1, 0.5}).Draw(t, "dt")
		began := 0.0
		for range 4 {
			speed := rapid.Float64Range(0, 6.2).Draw(t, "speed")
			turn := rapid.Float64Range(-0.5, 0.5).Draw(t, "rate of turn")
			g.Ordered = rapid.Float64Range(0, 600).Draw(t, "ordered")
			for range int(20 / dt) {
				course += turn * dt
				x += speed * math.Sin(course) * dt
				y += speed * math.Cos(course) * dt
				g.Step(dt, x, y, Uniform{cx, cy}, floor)
				if !g.sound() {
					t.Fatalf("gear %+v", *g)
				}
				out := max(g.CableOut, shortest)
				chord := g.line.at[0].minus(g.line.at[g.line.n]).length()
				if chord > 1.05*out+1 {
					t.Fatalf("the fish is %.2f m from the sheave on %.2f m of cable", chord, out)
				}
				// New knows of no floor: a start below it is given a few seconds.
				if began += dt; began > 5 && g.Depth > -floor+1 {
					t.Fatalf("the fish is %.2f m down in %.2f m of water", g.Depth, -floor)
				}
			}
		}
	})
}

func TestHaulingBringsTheFishToTheSheave(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := cases[rapid.SampledFrom([]string{"S", "A", "P"}).Draw(t, "case")]
		s.Winch = Winch{Rate: rapid.Float64Range(0.2, 2).Draw(t, "rate"), Min: rapid.Float64Range(0.5, 5).Draw(t, "min")}
		cable := rapid.Float64Range(6, 200).Draw(t, "cable")
		speed := rapid.Float64Range(0, 6).Draw(t, "speed")
		turn := rapid.Float64Range(-0.1, 0.1).Draw(t, "rate of turn")
		g := New(s, 2, cable, speed, 0, 0, 0)
		g.Ordered = 0
		x, y, course := 0.0, 0.0, 0.0
		for range int(cable/s.Winch.Rate/0.1) + 50 {
			course += turn * 0.1
			x += speed * math.Sin(course) * 0.1
			y += speed * math.Cos(course) * 0.1
			g.Step(0.1, x, y, Uniform{}, -300)
		}
		chord := g.line.at[0].minus(g.line.at[g.line.n]).length()
		if g.CableOut != s.Winch.Min || chord > 1.01*s.Winch.Min {
			t.Fatalf("%.3f m of cable out and the fish %.3f m from the sheave, want %.3f", g.CableOut, chord, s.Winch.Min)
		}
	})
}
