package sim_test

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sim/simtest"
	"dryline/vessel"
	"dryline/vessel/sea"
)

// The scene hangs together: the cable runs from the fish to the sheave, the
// fish is between surface and floor, as far over the floor as the truth of its
// pings says; and looking changes nothing.
func TestSceneHangsTogether(t *testing.T) {
	ex := simtest.Small(t)
	ex.Sea.Tide = sea.Tide{Amplitude: 1.5}
	ex.Vessel.Block, ex.Vessel.GM = 0.45, 0.8
	ex.Sea.Waves = sea.Blown(8, 0, 5000, 14)
	s := begin(t, ex)
	for range 20 {
		s.Advance(50)
		sc := s.Scene()
		n := len(sc.Cable)
		if n < 2 {
			t.Fatalf("the cable has %d points", n)
		}
		first, last := sc.Cable[0], sc.Cable[n-1]
		if d := math.Hypot(first[0]-sc.FishX, first[1]-sc.FishY); d > 1e-9 || math.Abs(first[2]-sc.FishZ) > 1e-9 {
			t.Fatalf("the cable begins at %v, the fish is at (%.2f, %.2f, %.2f)", first, sc.FishX, sc.FishY, sc.FishZ)
		}
		for k := range last {
			if math.Abs(last[k]-sc.Sheave[k]) > 1e-9 {
				t.Fatalf("the cable ends at %v, the sheave is at %v", last, sc.Sheave)
			}
		}
		surface, floor := sc.Surface(sc.FishX, sc.FishY), sc.Floor(sc.FishX, sc.FishY)
		if !(floor < sc.FishZ && sc.FishZ < surface) || math.Abs(sc.FishZ-floor-sc.FishAltitude) > 1e-9 {
			t.Fatalf("floor %.2f, fish %.2f (%.2f up), surface %.2f", floor, sc.FishZ, sc.FishAltitude, surface)
		}
		if math.Abs(sc.Level-ex.Sea.Tide.Height(s.Now())) > 1e-9 || math.Abs(surface-sc.Level) > 2*ex.Sea.Waves.Hs {
			t.Fatalf("level %.2f, surface %.2f", sc.Level, surface)
		}
	}
}

// The waves that the crew sees along the vessel are those of the surface there: ahead of her and astern, by her
// heading.
func TestCrestsAreTheSurfaceAlongTheVessel(t *testing.T) {
	s := begin(t, simtest.Rough(t))
	s.Advance(300)
	sc := s.Scene()
	up := make([]float64, 5)
	s.Passage.Crests(up, 12, 7.5)
	sin, cos := math.Sincos(sc.Heading)
	most := 0.0
	for i, ahead := range []float64{12, 4.5, -3, -10.5, -18} {
		want := sc.Surface(sc.X+ahead*sin, sc.Y+ahead*cos) - sc.Level
		if math.Abs(up[i]-want) > 1e-9 {
			t.Errorf("%g m ahead: %.4f m, the surface is at %.4f", ahead, up[i], want)
		}
		most = max(most, math.Abs(want))
	}
	if most < 0.02 {
		t.Errorf("the sea is flat: %.4f m at most", most)
	}
}

// A scene and a bridge stay as they were when the session goes on.
func TestSceneStays(t *testing.T) {
	s := begin(t, simtest.Small(t))
	s.Advance(100)
	sc, b := s.Scene(), s.Bridge()
	surface, end, tension := sc.Surface(10, 20), sc.Cable[3], b.Tension
	simtest.Give(t, s, order.Command{Do: order.Cable, Value: 10})
	s.Advance(300)
	if sc.Surface(10, 20) != surface || sc.Cable[3] != end || b.Tension != tension || b.CableOrdered != 20 {
		t.Error("they changed as the session went on")
	}
}

// The bridge shows orders as they are given and what comes of them.
func TestBridge(t *testing.T) {
	s := begin(t, simtest.Small(t))
	for _, c := range []order.Command{
		{Do: order.Rudder, Value: 1}, {Do: order.Speed, Value: 2.6}, {Do: order.Cable, Value: 14}, {Do: order.LogOn, Line: "L2", Reversed: true}, {Do: order.Lookout},
	} {
		simtest.Give(t, s, c)
	}
	s.Advance(100)
	b := s.Bridge()
	if b.Steering.Do != order.Rudder || b.Speed != 2.6 || b.CableOrdered != 14 || b.Logging != "L2" || !b.Reversed || b.Lookout {
		t.Errorf("got %+v", b)
	}
	if most := s.Exercise.Vessel.RudderMax; math.Abs(b.Rudder-most) > 1e-9 || b.RudderOrdered != most {
		t.Errorf("rudder %.3f, ordered %.3f, want hard over at %.3f", b.Rudder, b.RudderOrdered, most)
	}
	out := s.Reading().CableOut // a perfect counter
	if b.Thrust <= 0 || b.Tension < 200 || math.Abs(b.Mark+b.MarkPast-out) > 1e-9 {
		t.Errorf("thrust %.2f, tension %.0f N, mark %g past by %.2f with %.2f m out", b.Thrust, b.Tension, b.Mark, b.MarkPast, out)
	}
	simtest.Give(t, s, order.Command{Do: order.LogOff})
	if b = s.Bridge(); b.Logging != "" {
		t.Errorf("still logging %s", b.Logging)
	}
}

// The crew notices a knock and not what was hit or where.
func TestBridgeKeepsTheTruthBack(t *testing.T) {
	ex := simtest.Small(t)
	o := &ex.Seabed.Objects[0]
	o.At.X, o.At.Y, o.Length, o.Width, o.Height = 100, 300, 12, 12, 9
	s := begin(t, ex)
	s.StopPings()
	s.AttachMate()
	s.Advance(1000)
	simtest.Give(t, s, order.Command{Do: order.Cable, Value: 60})
	s.Advance(2000)
	if s.Truth.Count(passage.Grounded) == 0 || s.Truth.Count(passage.Struck) == 0 {
		t.Fatal("the fish never touched the floor, or never the block")
	}
	b := s.Bridge()
	// What is broken in the fish is for the record to tell.
	if told := len(s.Truth.Mishaps) - s.Truth.Count(passage.Damaged) - s.Truth.Count(passage.Ruined); len(b.Alarms) != told {
		t.Fatalf("%d alarms for %d mishaps", len(b.Alarms), told)
	}
	for _, a := range b.Alarms {
		if a.What != passage.Knocked || a.Says != "the fish touched something" {
			t.Errorf("got %+v", a)
		}
	}
}

// A turn being steered is shown from where she is to where the run-in begins,
// and no longer once she is on the line.
func TestBridgeShowsTheTurn(t *testing.T) {
	s := begin(t, simtest.Small(t))
	s.StopPings()
	s.Advance(50)
	turn := order.Command{Do: order.Turn, Line: "L2", Reversed: true, Pattern: vessel.Teardrop}
	if err := s.Give(turn); err != nil {
		t.Fatal(err)
	}
	// As far before the end of L2, which is its beginning when it is reversed, as the
	// run-in and the layback are long.
	want := seabed.Point{X: 170, Y: 360 + 90 + s.Passage.Fix().Layback}
	way := s.Bridge().Way
	if len(way) < 10 {
		t.Fatalf("%d points of the turn, want many", len(way))
	}
	first, last := way[0], way[len(way)-1]
	if math.Hypot(first[0]-s.Reading().X, first[1]-s.Reading().Y) > 1 || math.Hypot(last[0]-want.X, last[1]-want.Y) > 1 {
		t.Errorf("the turn goes from %v to %v, want from her to the run-in at %.1f, %.1f", first, last, want.X, want.Y)
	}
	for range 6000 {
		if s.Advance(1); s.Bridge().Steering.Do == order.SteerLine {
			break
		}
	}
	if s.Bridge().Steering.Do != order.SteerLine || len(s.Bridge().Way) != 0 {
		t.Error("the turn is still shown, or never ends in the line")
	}
}
