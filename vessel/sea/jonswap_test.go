package sea

import (
	"math"
	"testing"
)

// published is the JONSWAP spectrum as Hasselmann et al. (1973) give it,
//
//	S = alpha g^2 w^-5 exp(-5/4 (wp/w)^4) gamma^exp(-(w-wp)^2/(2 s^2 wp^2))
//
// with gamma 3.3, s 0.07 up to the peak and 0.09 beyond.
func published(alpha, peak, omega float64) float64 {
	sigma := 0.07
	if omega > peak {
		sigma = 0.09
	}
	enhance := math.Pow(3.3, math.Exp(-math.Pow((omega-peak)/(sigma*peak), 2)/2))
	return alpha * gravity * gravity * math.Pow(omega, -5) * math.Exp(-1.25*math.Pow(peak/omega, 4)) * enhance
}

// The fetch form of 1973, alpha = 0.076 X^-0.22 and fp = 3.5 g/U X^-0.33 with
// X = g F/U^2: periods, and heights by integrating it, worked out outside this
// project. A spectrum of that height and period is that form, density by density.
func TestJONSWAPFetchForm(t *testing.T) {
	for _, row := range []struct{ wind, km, tp, hm0 float64 }{
		{5, 5, 1.778, 0.2077}, {10, 1, 1.323, 0.1599}, {10, 5, 2.250, 0.3875}, {10, 10, 2.828, 0.5674},
		{10, 50, 4.810, 1.3750}, {10, 100, 6.047, 2.0131}, {15, 20, 4.081, 1.1965}, {15, 200, 8.724, 4.2453}, {20, 50, 6.089, 2.5658},
	} {
		x := gravity * row.km * 1e3 / (row.wind * row.wind)
		alpha, peak := 0.076*math.Pow(x, -0.22), 2*math.Pi*3.5*gravity/row.wind*math.Pow(x, -0.33)
		if got := 2 * math.Pi / peak; math.Abs(got-row.tp) > 0.6e-3 {
			t.Errorf("%g m/s %g km: period %.4f s, want %.3f", row.wind, row.km, got, row.tp)
		}
		s := JONSWAP(row.hm0, 2*math.Pi/peak, 3.3)
		for _, share := range []float64{0.6, 0.8, 0.9, 0.95, 1, 1.05, 1.1, 1.2, 1.5, 3} {
			got, want := s.Density(share*peak), published(alpha, peak, share*peak)
			if math.Abs(got-want) > 1e-3*want {
				t.Errorf("%g m/s %g km at %g of the peak: got %.6g m^2 s, want %.6g", row.wind, row.km, share, got, want)
			}
		}
	}
}

// The peak is enhanced differently on its two sides: gamma^r with gamma 3.3 and
// r = exp(-d^2/(2 s^2)) a tenth of the peak's frequency off it is 1.538 below and
// 1.904 above (s of 0.07 and 0.09, Hasselmann et al. 1973).
func TestJONSWAPSides(t *testing.T) {
	plain, peaked := JONSWAP(1, 2*math.Pi, 1), JONSWAP(1, 2*math.Pi, 3.3)
	enhanced := func(omega float64) float64 {
		return peaked.Density(omega) / plain.Density(omega) * plain.Density(1) / peaked.Density(1) * 3.3
	}
	for _, row := range []struct{ omega, want float64 }{{0.9, 1.5378}, {1.1, 1.9041}, {0.8, 1.0203}, {1.2, 1.1064}} {
		if got := enhanced(row.omega); math.Abs(got-row.want) > 2e-4 {
			t.Errorf("at %g of the peak: enhanced %.5f times, want %.4f", row.omega, got, row.want)
		}
	}
}
