package sea

import (
	"math"
	"testing"
)

// Hs, Tp and Tz of Pierson and Moskowitz (1964) for a wind at 19.5 m, worked
// out outside this project from m0 = A/4B and m2 = sqrt(pi/B) A/4.
func TestPiersonMoskowitz(t *testing.T) {
	for _, test := range []struct{ wind, hs, tp, tz float64 }{
		{5, 0.5332, 3.6509, 2.5935}, {7.5, 1.1998, 5.4764, 3.8902},
		{10, 2.1330, 7.3018, 5.1870}, {15, 4.7992, 10.9527, 7.7805},
	} {
		s := PiersonMoskowitz(test.wind)
		if math.Abs(s.Hs-test.hs) > 0.6e-4 || math.Abs(s.Tp-test.tp) > 0.6e-4 {
			t.Errorf("%g m/s: got Hs %.5f Tp %.5f, want %.4f %.4f", test.wind, s.Hs, s.Tp, test.hs, test.tp)
		}
		// The second moment converges slowly: the tail above the last frequency
		// holds 1/2 A/w^2 of it, put back here.
		end := 2 * math.Pi / s.Tp * highest
		tail := 8.1e-3 * gravity * gravity / (2 * end * end)
		tz := 2 * math.Pi * math.Sqrt(s.moment(0)/(s.moment(2)+tail))
		if math.Abs(tz-test.tz) > 1e-4*test.tz {
			t.Errorf("%g m/s: got Tz %.5f, want %.4f", test.wind, tz, test.tz)
		}
		// The published density itself.
		for _, omega := range []float64{0.5, 0.9, 1.5, 3} {
			g := gravity / test.wind
			want := 8.1e-3 * gravity * gravity / math.Pow(omega, 5) * math.Exp(-0.74*math.Pow(g/omega, 4))
			if got := s.Density(omega); math.Abs(got-want) > 1e-4*want {
				t.Errorf("%g m/s at %g rad/s: got %.6g, want %.6g", test.wind, omega, got, want)
			}
		}
	}
}

// ITTC (1978): S = A w^-5 exp(-B/w^4), A = 487 Hs^2/Tp^4, B = 1949/Tp^4, the
// coefficients rounded as published.
func TestGammaOneIsITTC(t *testing.T) {
	s := JONSWAP(1.7, 6, 1)
	for _, omega := range []float64{0.9, 1.05, 1.4, 2.5} {
		tp4 := math.Pow(6, 4)
		want := 487 * 1.7 * 1.7 / tp4 * math.Pow(omega, -5) * math.Exp(-1949/tp4*math.Pow(omega, -4))
		if got := s.Density(omega); math.Abs(got-want) > 2e-3*want {
			t.Errorf("at %g rad/s: got %.5g, want %.5g", omega, got, want)
		}
	}
}

// Hs is four standard deviations of the surface, and the peak stands where it
// is asked for. The sum is a trapezium of its own, finer and over more
// frequencies than the one that finds the scale.
func TestJONSWAPKeepsHeight(t *testing.T) {
	for _, gamma := range []float64{1, 2, 3.3, 5, 7} {
		s := JONSWAP(1.5, 5, gamma)
		const step = 1e-3
		m0, most, at := 0.0, 0.0, 0.0
		for omega := step; omega < 60; omega += step {
			d := s.Density(omega)
			m0 += d * step
			if d > most {
				most, at = d, omega
			}
		}
		if got := 4 * math.Sqrt(m0); math.Abs(got-1.5) > 1e-4*1.5 {
			t.Errorf("gamma %g: got Hs %.5f, want 1.5", gamma, got)
		}
		if got := 2 * math.Pi / at; math.Abs(got-5) > 0.01 {
			t.Errorf("gamma %g: got Tp %.4f, want 5", gamma, got)
		}
		// The published 1 - 0.287 ln(gamma) (Goda) is good to 2 %.
		if got, want := s.scale, 1-0.287*math.Log(gamma); gamma <= 5 && math.Abs(got-want) > 0.02*want {
			t.Errorf("gamma %g: got scale %.4f, want about %.4f", gamma, got, want)
		}
	}
}

// DNV-RP-C205, 3.5.5: the three branches.
func TestPeakEnhancement(t *testing.T) {
	for _, test := range []struct{ hs, tp, want float64 }{
		{1, 3, 5}, {1, 3.6, 5}, {4, 8, math.Exp(5.75 - 1.15*4)}, {1, 5, 1}, {1, 9, 1}, {0, 9, 1},
	} {
		if got := PeakEnhancement(test.hs, test.tp); math.Abs(got-test.want) > 1e-12 {
			t.Errorf("Hs %g Tp %g: got %g, want %g", test.hs, test.tp, got, test.want)
		}
	}
}
