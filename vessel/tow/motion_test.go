package tow

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// energy is kinetic, of height in still water, and of stretch.
func (c *cable) energy() float64 {
	e := 0.0
	node := func(i int, mass, weight float64) {
		e += 0.5*mass*c.vel[i].dot(c.vel[i]) + weight*c.at[i].z
	}
	node(0, c.fishMass, c.fishWeight)
	for i := range c.n {
		half := 0.5 * c.rest(i)
		t := c.at[i+1].minus(c.at[i])
		long := t.length()
		t = t.times(1 / long)
		for j := i; j <= i+1; j++ {
			node(j, half*c.mass, half*(c.mass-c.displaced)*gravity)
			across := c.vel[j].minus(t.times(c.vel[j].dot(t)))
			e += 0.5 * half * c.displaced * across.dot(across)
		}
		if x := long - c.rest(i); x > 0 {
			e += 0.5 * c.stiffness / c.rest(i) * x * x
		}
	}
	return e
}

// A tow whose sheave stops swings down in still water; nothing may make it swing
// harder, whatever the gear and however it came. The fish is solid, so that the
// energy has no water in it that it moves.
func TestEnergyDoesNotGrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		s := Spec{
			Cable: Cable{
				Diameter: v("diameter", 0.004, 0.02), Weight: v("weight", 0, 9), Normal: v("cn", 0.5, 2), Tangential: v("ct", 0, 0.02), Length: 600,
			},
			Fish: Fish{Weight: v("fish weight", 50, 7000), DragArea: v("drag area", 0, 0.4)},
		}
		length, speed, turn := v("length", 5, 400), v("speed", 0, 5), v("rate of turn", -0.3, 0.3)
		if i, grown, scale := growth(s, length, speed, turn, rapid.IntRange(1, 40).Draw(t, "nodes")); grown > 0 {
			t.Fatalf("step %d: energy grew by %.3g J, of %.3g", i, grown, scale)
		}
	})
}

// growth tows a gear round for ten seconds, stops the sheave dead, and returns
// the step at which its energy grew and by how much, beside what can be let go.
func growth(s Spec, length, speed, turn float64, nodes int) (step int, grown, scale float64) {
	g := newGear(s, 0, length, speed, 0, 0, 0, nodes)
	x, y := 0.0, 0.0
	for i := range 100 {
		sin, cos := math.Sincos(turn * float64(i) * 0.1)
		x, y = x+speed*sin*0.1, y+speed*cos*0.1
		g.Step(0.1, x, y, Uniform{}, -5000)
	}
	g.Step(0.1, x, y, Uniform{}, -5000)
	last := g.cable.energy()
	scale = (s.Fish.Weight + s.Cable.Weight*length) * length
	for i := range 300 {
		g.Step(0.1, x, y, Uniform{}, -5000)
		e := g.cable.energy()
		if e-last > 1e-8*scale {
			return i, e - last, scale
		}
		last = e
	}
	return 0, 0, scale
}

// A thick cable without weight or drag along it, stopped dead at 5 m/s: the fish
// runs past the sheave and the cable is all bends.
func TestStoppedDeadItSettles(t *testing.T) {
	s := Spec{Cable: Cable{Diameter: 0.02, Normal: 1.75, Length: 600}, Fish: Fish{Weight: 52, DragArea: 0.001}}
	for length := 8.0; length < 10; length += 0.05 {
		if i, grown, scale := growth(s, length, 5, 0.156, 16); grown > 0 {
			t.Errorf("%.2f m, step %d: energy grew by %.3g J, of %.3g", length, i, grown, scale)
		}
	}
}

// Let go from a tow at speed it hangs in the end as at rest, all its height
// given to the water.
func TestLetGoItComesToRest(t *testing.T) {
	for name, s := range cases {
		for _, speed := range []float64{0, 1, 3} {
			g := newGear(s, 0, 100, speed, 0, 0, 0, 20)
			for i := range g.cable.n {
				g.cable.vel[i] = vec{}
			}
			first := g.cable.energy()
			for range 6000 {
				g.Step(0.1, 0, 0, Uniform{}, -5000)
			}
			rest := s.Steady(0, 100, 0)
			near(t, name+" depth", g.Depth, rest.Depth, 0.02)
			near(t, name+" tension", g.Tension, rest.Tension, 0.02)
			if last := g.cable.energy(); speed > 0 && last > first-s.Fish.Weight/2 {
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
		// A wing is not drawn on a fish too light to carry one.
		if s.Fish.Depressor == 0 && rapid.Bool().Draw(t, "next to no fish") {
			s.Fish.Weight, s.Fish.DragArea = rapid.Float64Range(0.5, 20).Draw(t, "weight"), 0
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
				chord := g.cable.at[0].minus(g.cable.at[g.cable.n]).length()
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

// winches are those of the kinds in exercises: one of any power, a motor and a
// hand at a crank.
var winches = map[string]Winch{
	"ideal": {Rate: 1, Min: 2},
	"motor": {Rate: 0.4, Min: 2, Pull: 2500, Power: 750, Brake: 5000},
	"hand":  {Rate: 0.4, Min: 2, Pull: 600, Power: 75, Brake: 1500},
}

// Hauling always ends with the fish at the sheave, unless the cable pulls
// harder than the winch can: then it stands still and says so, or the brake lets
// cable go.
func TestHaulingBringsTheFishToTheSheave(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := cases[rapid.SampledFrom([]string{"S", "A", "P"}).Draw(t, "case")]
		kind := rapid.SampledFrom([]string{"ideal", "motor", "hand"}).Draw(t, "winch")
		s.Winch = winches[kind]
		s.Cable.Length = 600
		if kind == "ideal" {
			s.Winch.Rate, s.Winch.Min = rapid.Float64Range(0.3, 3).Draw(t, "rate"), rapid.Float64Range(0.5, 5).Draw(t, "min")
		}
		cable := rapid.Float64Range(6, 600).Draw(t, "cable")
		speed := rapid.Float64Range(0, 6).Draw(t, "speed")
		turn := rapid.Float64Range(-0.1, 0.1).Draw(t, "rate of turn")
		w := &s.Winch
		shape := s.Steady(speed, cable, 2)
		seconds := cable/w.Rate + 60
		if w.Power > 0 {
			seconds += 1.5 * shape.Tension * cable / w.Power // less of it as the cable comes in
		}
		g := New(s, 2, cable, speed, 0, 0, 0)
		x, y, course := 0.0, 0.0, 0.0
		const most = 30000 // steps: a strong hand at a long crank takes all day
		steps := min(int(seconds/0.1), most)
		stalls := 0
		for i := 0; i < steps && g.CableOut > w.Min && stalls < 300; i++ {
			g.Ordered = 0
			was, tension := g.CableOut, g.Tension
			course += turn * 0.1
			x += speed * math.Sin(course) * 0.1
			y += speed * math.Cos(course) * 0.1
			g.Step(0.1, x, y, Uniform{}, -1000)
			switch {
			case w.Brake > 0 && tension > w.Brake:
				return // the brake slips
			case g.CableOut > was:
				t.Fatalf("cable went out, %.3f to %.3f m, while hauling at %.0f N", was, g.CableOut, tension)
			case g.CableOut == was:
				stalls++
				if w.Pull == 0 || tension <= w.Pull || !g.Stalled {
					t.Fatalf("stands still at %.2f m against %.0f N, stalled %t, pull %.0f N", was, tension, g.Stalled, w.Pull)
				}
			default:
				stalls = 0
			}
		}
		if stalls > 0 || steps == most && g.CableOut > w.Min {
			return // stalled for good, or still hauling
		}
		// A moment to come to rest.
		for range 50 {
			x += speed * math.Sin(course) * 0.1
			y += speed * math.Cos(course) * 0.1
			g.Step(0.1, x, y, Uniform{}, -1000)
		}
		chord := g.cable.at[0].minus(g.cable.at[g.cable.n]).length()
		if g.CableOut != w.Min || chord > 1.01*w.Min {
			t.Fatalf("%.3f m of cable out and the fish %.3f m from the sheave, want %.3f", g.CableOut, chord, w.Min)
		}
	})
}
