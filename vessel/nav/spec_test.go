package nav

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Errors have the mean and spread given: of n normal draws the mean is good to
// sigma/sqrt(n) and the spread to sigma/sqrt(2n) (exact for large n), at 4 of
// them. A last digit d adds d^2/12 of its own (uniform rounding).
func TestErrors(t *testing.T) {
	const n = 200000
	chance := rand.New(rand.NewPCG(1, 2))
	for _, e := range []Errors{{Bias: -0.4, Noise: 0.3}, {Noise: 2}, {Bias: 1, Noise: 0.5, Step: 0.5}} {
		sum, square := 0.0, 0.0
		for range n {
			d := e.spoil(7, chance) - 7 - e.Bias
			sum, square = sum+d, square+d*d
		}
		want := math.Sqrt(e.Noise*e.Noise + e.Step*e.Step/12)
		if mean, got := sum/n, math.Sqrt(square/n); math.Abs(mean) > 4*want/math.Sqrt(n) || math.Abs(got-want) > 4*want/math.Sqrt(2*n) {
			t.Errorf("%+v: got %.5f and %.5f, want 0 and %.5f", e, mean, got, want)
		}
	}
}

// The true wind is worked out with what the displays have: a heading wrong by
// an angle turns the apparent wind by it, and the true wind comes out wrong.
func TestTrueWindTakesTheHeadingShown(t *testing.T) {
	at := Truth{VY: 5, WindX: -8, WindY: -6}
	for _, bias := range []float64{0, 10 * degree, -25 * degree} {
		r := New(Spec{Heading: HeadingSpec{Errors: Errors{Bias: bias}}}, 1).Read(0, 1, at)
		// Felt: (-8, -11) m/s, turned clockwise by the bias, and the vessel's 5 north.
		sin, cos := math.Sincos(bias)
		east, north := -8*cos-11*sin, 8*sin-11*cos+5
		if got, want := r.TrueWindSpeed, math.Hypot(east, north); math.Abs(got-want) > 1e-9 {
			t.Errorf("heading off by %.2f: got %.4f m/s, want %.4f", bias, got, want)
		}
		if d := math.Remainder(float64(r.TrueWindFrom)-math.Atan2(-east, -north), 2*math.Pi); math.Abs(d) > 1e-9 {
			t.Errorf("heading off by %.2f: the wind's direction is off by %.4f", bias, d)
		}
	}
}
