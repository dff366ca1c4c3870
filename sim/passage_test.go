package sim

import (
	"math"
	"testing"

	"dryline/vessel"
	"dryline/vessel/sea"

	"pgregory.net/rapid"
)

// rough is the small exercise in wind, waves, gusts, a sheared current and a
// tide, with a fish that swings.
func rough(t testing.TB) *Exercise {
	ex := small(t)
	current, err := sea.NewProfile([]sea.Current{{Speed: 0.5, Set: 1}, {Depth: 8, Speed: 0.1, Set: 2}})
	if err != nil {
		t.Fatal(err)
	}
	ex.Sea.WindSpeed, ex.Sea.WindFrom, ex.Sea.Gusty = 8, 4, true
	ex.Sea.Waves = sea.Blown(8, 4, 10e3, 14)
	ex.Sea.Current, ex.Sea.Tide = current, sea.Tide{Amplitude: 1}
	ex.Vessel.Block, ex.Vessel.GM, ex.Vessel.PropellerWalk = 0.45, 0.8, 0.03
	ex.Tow.Fish.Mass, ex.Tow.Fish.Length, ex.Tow.Fish.FinArea, ex.Tow.Fish.TowAbove = 40, 1.3, 0.05, 0.12
	return ex
}

// withoutPings stops the sonar, for tests that are about the tow alone.
func (s *Session) withoutPings() { s.nextPing = math.Inf(1) }

// Any helm, speed from 0 to 12 knots, cable from 0 to 600 m: nothing becomes
// infinite or no number, on the water or on the desk.
func TestPassageNeverBreaks(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		ex := rough(t)
		ex.Tow.Cable.Length = 600
		ex.Vessel.SpeedMax = 6.2
		ex.Sea.Waves = sea.Blown(rapid.Float64Range(0, 15).Draw(rt, "wind"), rapid.Float64Range(-3, 3).Draw(rt, "from"), 20e3, 14)
		ex.Plan.CableOut = rapid.Float64Range(2, 600).Draw(rt, "cable")
		ex.Plan.Speed = rapid.Float64Range(0, 6.2).Draw(rt, "speed")
		s, err := New(ex, rapid.Uint64().Draw(rt, "seed"))
		if err != nil {
			rt.Fatal(err)
		}
		s.withoutPings()
		for range 3 {
			for _, c := range []Command{
				{Do: Speed, Value: rapid.Float64Range(0, 6.2).Draw(rt, "speed")},
				{Do: Cable, Value: rapid.Float64Range(0, 600).Draw(rt, "cable")},
				rapid.SampledFrom([]Command{
					{Do: Rudder, Value: rapid.Float64Range(-0.7, 0.7).Draw(rt, "rudder")},
					{Do: SteerHeading, Value: rapid.Float64Range(-3, 3).Draw(rt, "heading")},
					{Do: SteerPoint, X: rapid.Float64Range(-500, 900).Draw(rt, "x"), Y: rapid.Float64Range(-500, 900).Draw(rt, "y")},
					{Do: SteerLine, Line: "L2", Reversed: rapid.Bool().Draw(rt, "reversed")},
					{Do: Turn, Line: "L1", Pattern: rapid.SampledFrom(vessel.Turns()).Draw(rt, "turn")},
				}).Draw(rt, "helm"),
				{Do: Factor, Value: rapid.Float64Range(0.3, 1).Draw(rt, "factor")},
			} {
				if err := s.Give(c); err != nil {
					rt.Fatal(err)
				}
			}
			for range 150 {
				s.Advance(1)
				h, g, r, f := &s.hull, s.gear, s.reading, s.Desk.FixAt(s.Now())
				for _, v := range []float64{
					h.X, h.Y, h.Heading, h.Surge, h.Leeway, h.YawRate, s.ride.Heave, s.ride.Pitch, s.ride.Roll,
					g.X, g.Y, g.Depth, g.Yaw, g.Pitch, g.Roll, g.Tension, r.X, r.Y, r.FishDepth, r.FishAltitude, f.X, f.Y, f.Layback,
				} {
					if math.IsNaN(v) || math.Abs(v) > 1e6 {
						rt.Fatalf("at %.1f s: hull %+v gear %+v fix %+v", s.Now(), *h, *g, f)
					}
				}
			}
		}
	})
}

// A factor put right on the desk moves the fish at once by what the layback
// formula says, sqrt((f C)^2 - drop^2), and leaves the truth alone.
func TestFactorIsTheDesksAlone(t *testing.T) {
	run := func(factor float64) *Session {
		s, err := New(small(t), 1)
		if err != nil {
			t.Fatal(err)
		}
		s.withoutPings()
		s.Advance(300)
		if factor > 0 {
			if err := s.Give(Command{Do: Factor, Value: factor}); err != nil {
				t.Fatal(err)
			}
		}
		s.Advance(2)
		return s
	}
	as, put := run(0), run(0.9)
	if as.gear.X != put.gear.X || as.gear.Y != put.gear.Y {
		t.Error("a number on the desk moved the fish")
	}
	r := put.reading
	drop := r.FishDepth + 2.2
	want := math.Sqrt(0.81*r.CableOut*r.CableOut-drop*drop) + 6.3
	if got := put.Desk.FixAt(put.Now()).Layback; math.Abs(got-want) > 1e-9 {
		t.Errorf("layback %.6f m, want %.6f", got, want)
	}
}

// A tick of vessel, sea, tow, instruments and desk allocates nothing, but for
// the watch log that grows by an entry a second.
func TestPassageAllocatesNothing(t *testing.T) {
	s, err := New(rough(t), 1)
	if err != nil {
		t.Fatal(err)
	}
	s.withoutPings()
	must(t, s, Command{Do: Rudder, Value: 0.2})
	for range 200 { // everything has its size
		s.step()
		s.studio.events = s.studio.events[:0]
	}
	if n := testing.AllocsPerRun(500, func() {
		s.step()
		s.studio.events = s.studio.events[:0]
	}); n != 0 {
		t.Errorf("a tick allocates %g times", n)
	}
}

// One tick of vessel, sea, tow, instruments and desk in a steady turn in waves, which
// keeps the cable at its full six iterations. Pings apart.
func BenchmarkPassage(b *testing.B) {
	ex := rough(b)
	ex.Plan.TimeLimit = math.Inf(1)
	s, err := New(ex, 1)
	if err != nil {
		b.Fatal(err)
	}
	s.withoutPings()
	if err := s.Give(Command{Do: Rudder, Value: 0.2}); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		s.step()
		s.studio.events = s.studio.events[:0]
	}
}
