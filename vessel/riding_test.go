package vessel

import (
	"math"
	"testing"
)

// Geometry of a mast: bow up carries its top aft, starboard down to starboard,
// by its height times the sine; the deck under it goes up and down by its lever
// (exact). The heading turns it all.
func TestRidingAt(t *testing.T) {
	mast := Offset{Forward: 3, Starboard: 1, Up: 10}
	for _, test := range []struct {
		name                   string
		ride                   Attitude
		forward, starboard, up float64
	}{
		{"upright", Attitude{}, 3, 1, 10},
		{"bow up", Attitude{Pitch: 0.1}, 3 - 10*math.Sin(0.1), 1, 10 + 3*0.1},
		{"bow down", Attitude{Pitch: -0.2}, 3 + 10*math.Sin(0.2), 1, 10 - 3*0.2},
		{"starboard down", Attitude{Roll: 0.3}, 3, 1 + 10*math.Sin(0.3), 10 - 0.3},
		{"port down", Attitude{Roll: -0.3}, 3, 1 - 10*math.Sin(0.3), 10 + 0.3},
		{"risen", Attitude{Heave: 0.7}, 3, 1, 10.7},
	} {
		for _, heading := range []float64{0, 0.6, -2, math.Pi} {
			h := Hull{X: 100, Y: 200, Heading: heading}
			x, y, z := h.RidingAt(mast, test.ride)
			sin, cos := math.Sincos(heading)
			dx, dy := x-100, y-200
			forward, starboard := dx*sin+dy*cos, dx*cos-dy*sin
			if math.Abs(forward-test.forward) > 1e-9 || math.Abs(starboard-test.starboard) > 1e-9 || math.Abs(z-test.up) > 1e-9 {
				t.Errorf("%s, heading %.1f: got %.4f forward, %.4f to starboard, %.4f up, want %.4f, %.4f, %.4f",
					test.name, heading, forward, starboard, z, test.forward, test.starboard, test.up)
			}
		}
	}
}

// The velocity of a point is the slope of its place, whatever she does: under
// way, drifting, turning, pitching and rolling.
func TestVelocityRidingIsTheSlopeOfThePlace(t *testing.T) {
	const u, v, rate = 2.0, 0.3, 0.05
	at := func(now float64) (Hull, Attitude) {
		heading := 0.4 + rate*now
		sin, cos := math.Sincos(heading)
		// The way of a point that makes u ahead and v abeam while she turns.
		h := Hull{
			X: -u/rate*cos + v/rate*sin, Y: u/rate*sin + v/rate*cos, Heading: heading, YawRate: rate,
			VX: u*sin + v*cos, VY: u*cos - v*sin,
		}
		return h, Attitude{
			Pitch: 0.08 * math.Sin(1.3*now), PitchRate: 0.08 * 1.3 * math.Cos(1.3*now),
			Roll: 0.2 * math.Sin(0.9*now+1), RollRate: 0.2 * 0.9 * math.Cos(0.9*now+1),
		}
	}
	for _, o := range []Offset{{}, {Up: 12}, {Forward: 5, Up: 8}, {Forward: -7, Starboard: 2, Up: 3}, {Starboard: -3}} {
		for now := 0.0; now < 20; now += 0.7 {
			const dt = 1e-4
			before, was := at(now - dt)
			after, is := at(now + dt)
			x0, y0, _ := before.RidingAt(o, was)
			x1, y1, _ := after.RidingAt(o, is)
			h, a := at(now)
			vx, vy := h.VelocityRiding(o, a)
			if wantX, wantY := (x1-x0)/(2*dt), (y1-y0)/(2*dt); math.Hypot(vx-wantX, vy-wantY) > 1e-6 {
				t.Fatalf("%+v at %.1f s: got %.5f, %.5f m/s, its place moves at %.5f, %.5f", o, now, vx, vy, wantX, wantY)
			}
		}
	}
}

// In waves what course and speed say agrees with the positions differenced,
// tick by tick: a mast of 9 m in a sea on the beam.
func TestSpeedAgreesWithPositionsInWaves(t *testing.T) {
	m, _ := sailing()
	h := &Hull{Spec: launch(), Surge: 2, Heading: 0.3, VX: 2 * math.Sin(0.3), VY: 2 * math.Cos(0.3)}
	mast := Offset{Forward: 1, Up: 9}
	const tick = 0.1
	var was, before Attitude
	var last, old Hull
	square, swing := 0.0, 0.0
	const n = 3000
	for i := range n {
		h.Surge = 2
		h.Step(tick, Orders{}, Weather{})
		now := m.At(float64(i+1)*tick, h)
		if i > 1 {
			x0, y0, _ := old.RidingAt(mast, before)
			x1, y1, _ := h.RidingAt(mast, now)
			vx, vy := last.VelocityRiding(mast, was)
			square += math.Pow(vx-(x1-x0)/(2*tick), 2) + math.Pow(vy-(y1-y0)/(2*tick), 2)
			swing += math.Pow(vx-last.VX, 2) + math.Pow(vy-last.VY, 2)
		}
		old, before, last, was = last, was, *h, now
	}
	if off, size := math.Sqrt(square/n), math.Sqrt(swing/n); size < 0.2 || off > 0.03*size {
		t.Errorf("differs by %.4f m/s of a swing of %.3f, want less than 3 %% of tenths of a metre per second", off, size)
	}
}
