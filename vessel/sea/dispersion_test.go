package sea

import (
	"math"
	"testing"
)

// Wavelengths from omega^2 = g k tanh(k h) (Airy 1845), solved outside this
// project by bisection to the digits printed.
func TestWavelength(t *testing.T) {
	depths := []float64{0, 5, 10, 20, 50}
	for _, test := range []struct {
		period float64
		want   [5]float64
	}{
		{3, [5]float64{14.0518, 13.7624, 14.0481, 14.0518, 14.0518}},
		{5, [5]float64{39.0327, 30.3092, 36.5934, 38.9107, 39.0327}},
		{8, [5]float64{99.9238, 53.0815, 70.8984, 88.7927, 99.5615}},
		{10, [5]float64{156.1310, 67.6805, 92.3739, 121.2369, 151.2983}},
	} {
		for i, depth := range depths {
			got := 2 * math.Pi / WaveNumber(2*math.Pi/test.period, depth)
			if math.Abs(got-test.want[i]) > 0.51e-4 {
				t.Errorf("%g s over %g m: got %.5f m, want %.4f", test.period, depth, got, test.want[i])
			}
		}
	}
}

// The two directions undo each other, from waves that hardly feel the bottom
// to the limit of shallow water, omega = k sqrt(g h).
func TestDispersionBothWays(t *testing.T) {
	for _, depth := range []float64{0, 0.5, 3, 12, 60} {
		for omega := 0.01; omega < 30; omega *= 1.3 {
			k := WaveNumber(omega, depth)
			if got := Omega(k, depth); math.Abs(got-omega) > 1e-13*omega {
				t.Errorf("depth %g: omega %.15g came back as %.15g", depth, omega, got)
			}
		}
	}
	const depth, omega = 3.0, 1e-3
	if got, want := WaveNumber(omega, depth), omega/math.Sqrt(gravity*depth); math.Abs(got-want) > 1e-6*want {
		t.Errorf("shallow: got k %.9g, want %.9g", got, want)
	}
	if got := WaveNumber(0, depth); got != 0 {
		t.Errorf("no frequency: got k %g, want 0", got)
	}
}
