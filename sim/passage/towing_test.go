package passage_test

import (
	"dryline/sim/passage"
	"math"
	"testing"

	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/simtest"
	"dryline/sim/survey"
	"dryline/vessel"
	"dryline/vessel/nav"
	"dryline/vessel/sea"
)

// The cable pulls at the vessel as it pulls at the sheave. Towing steadily
// straight ahead, the thrust carries the drag of the hull and the horizontal
// part of the tension on top, which the steady equations give (Ablow and
// Schechter, Numerical simulation of undersea cable dynamics, 1983).
func TestTheTowHoldsTheVesselBack(t *testing.T) {
	ex := simtest.Small(t)
	ex.Tow.Fish.DragArea = 0.2 // enough to be felt
	ex.Sea.WindSpeed = 0
	s := begin(t, ex, 1)
	s.Advance(1200)
	h, g := s.Hull(), s.Gear()
	shape := ex.Tow.Steady(h.Surge, ex.Plan.CableOut, ex.Vessel.Sheave.Up)
	want := shape.Tension * math.Cos(shape.Angle)
	sin, cos := math.Sincos(h.Heading)
	ahead := h.PullX*sin + h.PullY*cos
	if math.Abs(ahead+want) > 0.03*want {
		t.Errorf("the cable pulls %.0f N ahead, want %.0f N astern", ahead, want)
	}
	x, y, _ := s.Hull().RidingAt(ex.Vessel.Sheave, *s.Ride())
	toFish := math.Atan2(g.X-x, g.Y-y)
	if off := math.Remainder(math.Atan2(h.PullX, h.PullY)-toFish, 2*math.Pi); math.Abs(off) > 0.02 {
		t.Errorf("the pull is %.3f rad off the way to the fish", off)
	}
	// Full thrust is what drags at the highest speed: k is the hull's own.
	k := h.Thrust / s.Orders().Thrust / (ex.Vessel.SpeedMax * ex.Vessel.SpeedMax)
	if left := h.Thrust - k*h.Surge*h.Surge - want; math.Abs(left) > 0.03*want {
		t.Errorf("thrust %.0f N, drag of the hull %.0f N, tow %.0f N: %.0f N are left over", h.Thrust, k*h.Surge*h.Surge, want, left)
	}
}

// The sheave moves with the stern, the antenna with what stands under it. Of a
// rigid body, turned by small angles: a point so far forward rises by that much
// times the pitch, bow up positive, and what stands high leans aft and, with the
// roll, to starboard (geometry).
func TestTheSternMovesTheSheave(t *testing.T) {
	s := begin(t, simtest.Small(t), 1)
	s.Hull().Heading, s.Hull().X, s.Hull().Y = 0, 0, 0
	for _, test := range []struct {
		name       string
		ride       vessel.Attitude
		at         vessel.Offset
		east, up   float64
		north, tol float64
	}{
		{"heave", vessel.Attitude{Heave: 0.7}, vessel.Offset{Forward: -6, Up: 2}, 0, 2.7, -6, 1e-9},
		{"bow up, at the stern", vessel.Attitude{Pitch: 0.1}, vessel.Offset{Forward: -6, Up: 2}, 0, 2 - 0.6, -6 - 0.2, 0.01},
		{"bow up, at the bow", vessel.Attitude{Pitch: 0.1}, vessel.Offset{Forward: 4}, 0, 0.4, 4, 0.01},
		{"starboard down", vessel.Attitude{Roll: 0.1}, vessel.Offset{Starboard: 2, Up: 3}, 2 + 0.3, 3 - 0.2, 0, 0.01},
	} {
		*s.Ride() = test.ride
		x, y, z := s.Hull().RidingAt(test.at, *s.Ride())
		if math.Abs(x-test.east) > test.tol || math.Abs(y-test.north) > test.tol || math.Abs(z-test.up) > test.tol {
			t.Errorf("%s: got %.3f east, %.3f north, %.3f up, want %.3f, %.3f, %.3f", test.name, x, y, z, test.east, test.north, test.up)
		}
	}
	// And the cable hangs from there: in waves the sheave of the tow is where the
	// stern is.
	ex := simtest.Small(t)
	ex.Vessel.Block, ex.Vessel.GM = 0.45, 0.8
	ex.Sea.Waves = sea.Conditions{Hs: 0.8, Tp: 4, Toward: math.Pi, Depth: 14}
	s = begin(t, ex, 1)
	spread := 0.0
	for range 300 {
		s.Advance(1)
		_, _, up := s.Hull().RidingAt(ex.Vessel.Sheave, *s.Ride())
		if math.Abs(s.Gear().SheaveUp-up) > 1e-9 {
			t.Fatalf("at %.1f s the sheave of the cable is %.3f m up, the stern's %.3f", s.Now(), s.Gear().SheaveUp, up)
		}
		spread = max(spread, math.Abs(s.Ride().PointHeave(ex.Vessel.Sheave.Forward, 0)-s.Ride().Heave))
	}
	if spread < 0.02 {
		t.Errorf("the stern moves at most %.3f m apart from the middle: no test of it", spread)
	}
}

// In a current across the line and with perfect instruments the fish lies
// astern along the way through the water: placed by the heading it is where it
// is, placed by the track it is 2 L sin(a/2) off, with L metres along the cable
// and a the crab angle (the current is a moving frame; geometry).
func TestPlacingInACurrent(t *testing.T) {
	for _, p := range []survey.Position{survey.ByTrack, survey.ByHeading} {
		ex := simtest.Small(t)
		flow, err := sea.NewProfile([]sea.Current{{Speed: 0.5, Set: math.Pi / 2}})
		if err != nil {
			t.Fatal(err)
		}
		ex.Sea.Current = flow
		ex.Sea.WindSpeed = 0
		ex.Desk.Position = p
		simtest.Exact(ex)
		s := begin(t, ex, 1)
		simtest.Give(t, s, order.Command{Do: order.SteerLine, Line: "L1"})
		s.Advance(1500)
		fix := s.Fix()
		crab := math.Abs(math.Remainder(s.Hull().Heading-fix.Heading, 2*math.Pi))
		along := fix.Layback - ex.Desk.AntennaToTow
		want := 0.0
		if p == survey.ByTrack {
			want = 2 * along * math.Sin(crab/2)
		}
		if got := math.Hypot(fix.X-s.Gear().X, fix.Y-s.Gear().Y); math.Abs(got-want) > 0.4 || crab < 0.15 {
			t.Errorf("%s: the fish is %.2f m off with a crab of %.2f rad, want %.2f m", p, got, crab, want)
		}
	}
}

// The mate logs a line whose fish is on it and straight: it comes to the start
// after the run-in, and she turns off only when it has left the end by the
// run-out.
func TestRunInAndRunOut(t *testing.T) {
	ex := simtest.Small(t)
	s := begin(t, ex, 1)
	s.attachMate()
	on := map[string]float64{} // how far the fish is off the line's bearing when the log goes on
	var cleared, joined float64
	turning, orders := false, 0
	for !s.Done() {
		s.Advance(1)
		for _, c := range s.Commands[orders:] {
			fix := s.Fix()
			switch c.Do {
			case order.LogOn:
				l := ex.Lines[exercise.LineNamed(ex.Lines, c.Line)].Track(c.Reversed)
				x, y, _ := s.Hull().RidingAt(ex.Vessel.Sheave, *s.Ride())
				trail := math.Atan2(x-s.Gear().X, y-s.Gear().Y)
				on[c.Line] = math.Abs(math.Remainder(trail-l.Bearing(), 2*math.Pi))
			case order.Turn:
				l := ex.Lines[0].Track(false)
				cleared, _ = l.Offset(fix.X, fix.Y)
				cleared -= l.Length()
				turning = true
			}
		}
		orders = len(s.Commands)
		if turning && s.Steering().Do == order.SteerLine { // the turn has led to the run-in
			turning = false
			along, _ := s.HelmTrack().Offset(s.Hull().X, s.Hull().Y)
			joined = -along - s.Fix().Layback
		}
	}
	const straight = 2 * math.Pi / 180
	for line, off := range on {
		if off > straight {
			t.Errorf("%s is logged with the cable %.1f degrees off the line, want under 2", line, off*180/math.Pi)
		}
	}
	if len(on) != 2 || cleared < ex.Plan.RunOut || cleared > ex.Plan.RunOut+3 {
		t.Errorf("%d lines logged; she turned with the fish %.1f m past the end, want the run-out of %g m", len(on), cleared, ex.Plan.RunOut)
	}
	if math.Abs(joined-ex.Plan.RunIn) > 5 {
		t.Errorf("she comes to the line with the fish %.1f m from its start, want the run-in of %g m", joined, ex.Plan.RunIn)
	}
}

// Set eight metres aside just after an instrument has failed, she comes back to
// the line by the course over ground if it is the heading, and is carried on
// along it, aside as she is, if it is the fix. The mate leaves the winch alone
// while it cannot see how high the fish is.
func TestOutages(t *testing.T) {
	out := []nav.Window{{From: 60, To: 120}}
	for _, test := range []struct {
		name string
		fail func(*nav.Spec)
	}{
		{"no heading", func(n *nav.Spec) { n.Heading.Outages = out }},
		{"no fix", func(n *nav.Spec) { n.GNSS.Outages = out }},
		{"no altimeter", func(n *nav.Spec) { n.Altimeter.Outages = out }},
	} {
		ex := simtest.Small(t)
		ex.Plan.Altitude, ex.Plan.AltitudeBand = 5, 0.3
		test.fail(&ex.Instruments)
		s := begin(t, ex, 1)
		s.attachMate()
		track := ex.Lines[0].Track(false)
		s.Advance(610)
		s.Hull().X += 8         // a squall: there is something to correct
		s.Brief.Plan.Altitude-- // and more to haul
		s.Advance(400)
		if _, off := track.Offset(s.Hull().X, s.Hull().Y); math.Abs(off) > 9 || test.name != "no fix" && math.Abs(off) > 3 {
			t.Errorf("%s: at %.0f s she is %.1f m off the line", test.name, s.Now(), off)
		}
		for _, c := range s.Commands {
			if c.Do == order.Cable && float64(c.Tick)*passage.Tick > out[0].From+1 && test.name == "no altimeter" {
				t.Errorf("%s: the winch is worked at %.1f s", test.name, float64(c.Tick)*passage.Tick)
			}
		}
	}
}
