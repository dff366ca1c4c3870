package acoustics

import (
	"math"
	"testing"
)

// APL-UW TR 9407 (1994), Section II, Eq. 28, worked out separately: 10 m/s,
// 20 kHz, straight up.
func TestSurfaceLoss(t *testing.T) {
	if got := SurfaceLoss(20e3, 10, math.Pi/2); !near(got, 0.59737, 5e-5) {
		t.Errorf("got %.5f dB, want 0.59737", got)
	}
	// More with wind, with frequency and at grazing angles.
	base := SurfaceLoss(50e3, 7, 0.5)
	for name, more := range map[string]float64{
		"wind": SurfaceLoss(50e3, 9, 0.5), "frequency": SurfaceLoss(90e3, 7, 0.5), "grazing": SurfaceLoss(50e3, 7, 0.3),
	} {
		if more <= base {
			t.Errorf("%s: got %.3f dB, want more than %.3f", name, more, base)
		}
	}
	// The two branches meet.
	if below, above := SurfaceLoss(50e3, 5.999999, 1), SurfaceLoss(50e3, 6.000001, 1); !near(below, above, 1e-4) {
		t.Errorf("at 6 m/s: %.5f dB from below, %.5f from above", below, above)
	}
}

// Read from the curves of APL-UW TR 9407 (1994), Section II, to some 2 dB; the
// model is a fit to them within 3 dB.
func TestSurfaceStrength(t *testing.T) {
	for _, test := range []struct{ kHz, wind, grazing, want, width float64 }{
		{70, 8, 30, -24, 3},
		{70, 8, 60, -19, 3},
		{18, 17, 15, -27, 3},
		{18, 17, 40, -21, 3},
		{18, 17, 60, -17, 3},
		{15, 3.5, 20, -46, 3},
		{25, 8, 90, 5.5, 2.5},
	} {
		got := SurfaceStrength(test.kHz*1000, test.wind, test.grazing*math.Pi/180)
		if !near(got, test.want, test.width) {
			t.Errorf("%g kHz, %g m/s, %g deg: got %.1f dB, want %g", test.kHz, test.wind, test.grazing, got, test.want)
		}
	}
}
