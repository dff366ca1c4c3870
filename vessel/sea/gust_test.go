package sea

import (
	"math"
	"testing"
)

// An Ornstein-Uhlenbeck process keeps its variance and forgets as
// exp(-lag/tau) (Uhlenbeck and Ornstein, Phys. Rev. 36, 1930). The deviation is
// that of Panofsky and Dutton (1984) with the friction velocity 0.3808 m/s of
// the Coastal Engineering Manual's drag law at 10 m/s.
func TestGustIsOrnsteinUhlenbeck(t *testing.T) {
	g := NewGust(10, 0, 4)
	const n = 1000000 // 28 hours, 8000 times tau
	along, across := make([]float64, n), make([]float64, n)
	for i := range n {
		speed, from := g.At(float64(i) * GustTick)
		sin, cos := math.Sincos(from)
		along[i], across[i] = speed*cos-10, speed*sin
	}
	for _, test := range []struct {
		name           string
		x              []float64
		deviation, tau float64
	}{
		{"along", along, 2.39 * 0.3808, 12}, {"across", across, 1.92 * 0.3808, 6},
	} {
		mean, variance, lagged := 0.0, 0.0, 0.0
		lag := int(test.tau / GustTick)
		for i, x := range test.x {
			mean += x / n
			variance += x * x / n
			lagged += x * test.x[max(i-lag, 0)] / n
		}
		if math.Abs(mean) > 0.05*test.deviation {
			t.Errorf("%s: got mean %.4f m/s, want 0", test.name, mean)
		}
		if got := math.Sqrt(variance); math.Abs(got-test.deviation) > 0.03*test.deviation {
			t.Errorf("%s: got deviation %.4f m/s, want %.4f", test.name, got, test.deviation)
		}
		if got, want := lagged/variance, math.Exp(-1); math.Abs(got-want) > 0.04 {
			t.Errorf("%s: got correlation %.4f after tau, want %.4f", test.name, got, want)
		}
	}
}

func TestGustDoesNotCareHowOftenItIsAsked(t *testing.T) {
	often, seldom := NewGust(8, 1, 9), NewGust(8, 1, 9)
	for i := range 6000 {
		often.At(float64(i) * 0.01)
	}
	a, fromA := often.At(60.03)
	b, fromB := seldom.At(60.03)
	if a != b || fromA != fromB {
		t.Errorf("got %g from %g, asked once %g from %g", a, fromA, b, fromB)
	}
	if speed, from := NewGust(0, 2, 9).At(60); speed != 0 || from != 2 {
		t.Errorf("calm: got %g from %g, want 0 from 2", speed, from)
	}
}
