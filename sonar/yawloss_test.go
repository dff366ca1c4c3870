package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
)

// The convolution of two sinc^2 patterns has a closed form: their transforms
// are triangles, so C(d) is the transform of a triangle squared,
//
//	C(d) = 6 (v - sin v) / v^3 ,  v = 2 pi d/d0
//
// with d0 the distance from the axis to the first null (exact mathematics,
// Bracewell, The Fourier Transform and Its Applications, theorem of
// convolution).
func TestYawLossClosedForm(t *testing.T) {
	for i := 1; i <= yawSteps; i++ {
		d := yawEnd * float64(i) / yawSteps
		v := 2 * math.Pi * d * 0.885893
		want := 6 * (v - math.Sin(v)) / (v * v * v)
		if got := float64(yawLossOfLine[i]); math.Abs(got-want) > 2e-3 {
			t.Errorf("turned by %.2f widths: got %.4f, want %.4f", d, got, want)
		}
	}
}

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
		want := math.Sqrt(6 * (v - math.Sin(v)) / (v * v * v))
		if got := float64(turning[k]) / float64(still[k]); math.Abs(got-want) > 0.02 {
			t.Errorf("at %.1f m: %.3f of the amplitude is left, want %.3f", r, got, want)
		}
	}
}
