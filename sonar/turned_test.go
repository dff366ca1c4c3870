package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
)

// What is left of a beam turned against itself. For a uniform line that follows
// its echo with its focus the product of two sinc^2 patterns has a closed form:
// their transforms are triangles, so
//
//	C(d) = 6 (v - sin v) / v^3 ,  v = 2 pi d/d0
//
// with d0 the distance from the axis to the first null (exact mathematics,
// Bracewell, The Fourier Transform and Its Applications, theorem of
// convolution).
func leftOfTurned(v float64) float64 { return 6 * (v - math.Sin(v)) / (v * v * v) }

// Yaw between sending and hearing dims the far range and leaves the near.
func TestYawDimsTheFarRange(t *testing.T) {
	e := newEngine(t, twoChannels())
	e.SpeckleOff, e.NoiseOff = true, true
	floor := plane{z: -10, class: seabed.MediumSand}
	render := func(rate float64) []uint16 {
		echo := e.NewEcho()
		e.Ping(e.NewWorkspace(), &echo, floor, Pose{Z: -3, YawRate: rate}, Port, 0)
		return echo.Samples[1]
	}
	still, turning := render(0), render(0.06)
	for _, k := range []int{400, 1000, 1900} {
		r := (float64(k) + 0.5) * e.Bin()
		v := 2 * math.Pi * 0.885893 * 0.06 * 2 * r / e.SoundSpeed() / e.channels[1].oneWay
		want := math.Sqrt(leftOfTurned(v))
		if got := float64(turning[k]) / float64(still[k]); math.Abs(got-want) > 0.02 {
			t.Errorf("at %.1f m: %.3f of the amplitude is left, want %.3f", r, got, want)
		}
	}
}

// A fish that tows on hears its echo from 2v/c astern, at all ranges alike; turning
// to starboard at the right rate it looks back at the starboard echo, and away from
// the port one.
func TestTowSpeedTurnsTheBeam(t *testing.T) {
	e := newEngine(t, twoChannels())
	e.SpeckleOff, e.NoiseOff = true, true
	floor := plane{z: -10, class: seabed.MediumSand}
	render := func(side Side, speed, rate float64) []uint16 {
		echo := e.NewEcho()
		e.Ping(e.NewWorkspace(), &echo, floor, Pose{Z: -3, Speed: speed, YawRate: rate}, side, 0)
		return echo.Samples[1]
	}
	const speed, rate = 3.0, 0.08
	still := render(Port, 0, 0)
	for _, side := range []Side{Port, Starboard} {
		ahead, turning := render(side, speed, 0), render(side, speed, rate)
		for _, k := range []int{400, 1000, 1900} {
			r := (float64(k) + 0.5) * e.Bin()
			unit := 2 * math.Pi * 0.885893 * 2 / e.SoundSpeed() / e.channels[1].oneWay
			want := math.Sqrt(leftOfTurned(unit * speed))
			if got := float64(ahead[k]) / float64(still[k]); math.Abs(got-want) > 0.02 {
				t.Errorf("%v at %.1f m: %.3f of the amplitude is left ahead, want %.3f", side, r, got, want)
			}
			yaw := rate * r
			if side == Starboard {
				yaw = -yaw
			}
			want = math.Sqrt(leftOfTurned(unit * math.Abs(speed+yaw)))
			if got := float64(turning[k]) / float64(still[k]); math.Abs(got-want) > 0.02 {
				t.Errorf("%v at %.1f m: %.3f of the amplitude is left turning, want %.3f", side, r, got, want)
			}
		}
	}
}
