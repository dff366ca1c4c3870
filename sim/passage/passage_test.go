package passage_test

import (
	"math"
	"testing"

	"dryline/vessel"
	"dryline/vessel/sea"

	"dryline/sim/order"
	"dryline/sim/simtest"
	"pgregory.net/rapid"
)

// Any helm, speed from 0 to 12 knots, cable from 0 to 600 m: nothing becomes
// infinite or no number, on the water or on the desk.
func TestPassageNeverBreaks(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		ex := simtest.Rough(t)
		ex.Tow.Cable.Length = 600
		ex.Vessel.SpeedMax = 6.2
		ex.Sea.Waves = sea.Blown(rapid.Float64Range(0, 15).Draw(rt, "wind"), rapid.Float64Range(-3, 3).Draw(rt, "from"), 20e3, 14)
		ex.Plan.CableOut = rapid.Float64Range(2, 600).Draw(rt, "cable")
		ex.Plan.Speed = rapid.Float64Range(0, 6.2).Draw(rt, "speed")
		s := begin(t, ex, rapid.Uint64().Draw(rt, "seed"))
		for range 3 {
			for _, c := range []order.Command{
				{Do: order.Speed, Value: rapid.Float64Range(0, 6.2).Draw(rt, "speed")},
				{Do: order.Cable, Value: rapid.Float64Range(0, 600).Draw(rt, "cable")},
				rapid.SampledFrom([]order.Command{
					{Do: order.Rudder, Value: rapid.Float64Range(-0.7, 0.7).Draw(rt, "rudder")},
					{Do: order.SteerHeading, Value: rapid.Float64Range(-3, 3).Draw(rt, "heading")},
					{Do: order.SteerPoint, X: rapid.Float64Range(-500, 900).Draw(rt, "x"), Y: rapid.Float64Range(-500, 900).Draw(rt, "y")},
					{Do: order.SteerLine, Line: "L2", Reversed: rapid.Bool().Draw(rt, "reversed")},
					{Do: order.Turn, Line: "L1", Pattern: rapid.SampledFrom(vessel.Turns()).Draw(rt, "turn")},
				}).Draw(rt, "helm"),
				{Do: order.Factor, Value: rapid.Float64Range(0.3, 1).Draw(rt, "factor")},
			} {
				if err := s.Give(c); err != nil {
					rt.Fatal(err)
				}
			}
			for range 150 {
				s.Advance(1)
				h, g, r, f := s.Hull(), s.Gear(), s.Reading(), s.Fix()
				for _, v := range []float64{
					h.X, h.Y, h.Heading, h.Surge, h.Leeway, h.YawRate, s.Ride().Heave, s.Ride().Pitch, s.Ride().Roll,
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
	run := func(factor float64) *under {
		s := begin(t, simtest.Small(t), 1)
		s.Advance(300)
		if factor > 0 {
			if err := s.Give(order.Command{Do: order.Factor, Value: factor}); err != nil {
				t.Fatal(err)
			}
		}
		s.Advance(2)
		return s
	}
	as, put := run(0), run(0.9)
	if as.Gear().X != put.Gear().X || as.Gear().Y != put.Gear().Y {
		t.Error("a number on the desk moved the fish")
	}
	r := put.Reading()
	drop := r.FishDepth + 2.2
	want := math.Sqrt(0.81*r.CableOut*r.CableOut-drop*drop) + 6.3
	if got := put.Fix().Layback; math.Abs(got-want) > 1e-9 {
		t.Errorf("layback %.6f m, want %.6f", got, want)
	}
}

// A tick of vessel, sea, tow, instruments and desk allocates nothing, but for
// the watch log that grows by an entry a second.
func TestPassageAllocatesNothing(t *testing.T) {
	s := begin(t, simtest.Rough(t), 1)
	simtest.Give(t, s, order.Command{Do: order.Rudder, Value: 0.2})
	for range 200 { // everything has its size
		s.StepAlone()
	}
	if n := testing.AllocsPerRun(500, func() {
		s.StepAlone()
	}); n != 0 {
		t.Errorf("a tick allocates %g times", n)
	}
}

// One tick of vessel, sea, tow, instruments and desk in a steady turn in waves,
// pings apart.
func BenchmarkPassage(b *testing.B) {
	ex := simtest.Rough(b)
	ex.Plan.TimeLimit = math.Inf(1)
	s := begin(b, ex, 1)
	if err := s.Give(order.Command{Do: order.Rudder, Value: 0.2}); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		s.StepAlone()
	}
}
