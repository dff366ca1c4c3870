package sea

import "math"

// Spectrum is how the variance of the surface is shared over frequencies.
type Spectrum struct {
	Hs, Tp float64 // metres, seconds
	Gamma  float64 // peak enhancement, 1 for a fully developed sea
	scale  float64 // makes m0 equal (Hs/4)^2
}

// JONSWAP returns the spectrum of a height, a period and a peak enhancement:
//
//	S = c 5/16 Hs^2 wp^4 w^-5 exp(-5/4 (wp/w)^4) gamma^exp(-(w-wp)^2/(2 s^2 wp^2))
//
// with s 0.07 below the peak and 0.09 above (Hasselmann et al., "Measurements
// of wind-wave growth and swell decay during the Joint North Sea Wave Project",
// Dt. Hydrogr. Z. A8(12), 1973). c is found by integration, so that the height
// comes back exactly; the usual 1 - 0.287 ln(gamma) is 1 to 2 % out. With gamma
// 1 this is the spectrum of Bretschneider and of the ITTC.
func JONSWAP(hs, tp, gamma float64) Spectrum {
	s := Spectrum{Hs: hs, Tp: tp, Gamma: gamma, scale: 1}
	if hs > 0 && tp > 0 {
		s.scale = hs * hs / 16 / s.moment(0)
	}
	return s
}

// PiersonMoskowitz returns the spectrum of a fully developed sea under a wind
// in m/s measured 19.5 m above the water:
//
//	S = A w^-5 exp(-B/w^4) ,  A = 8.1e-3 g^2 ,  B = 0.74 (g/U)^4
//
// (Pierson and Moskowitz, J. Geophys. Res. 69(24), 1964).
func PiersonMoskowitz(wind19 float64) Spectrum {
	if wind19 <= 0 {
		return Spectrum{Gamma: 1}
	}
	ratio := gravity / wind19
	a, b := 8.1e-3*gravity*gravity, 0.74*ratio*ratio*ratio*ratio
	return JONSWAP(2*math.Sqrt(a/b), 2*math.Pi/math.Pow(0.8*b, 0.25), 1)
}

// PeakEnhancement returns the gamma that goes with a height and a period, from
// 5 for a steep young sea to 1 for an old one, by DNV-RP-C205 (3.5.5):
//
//	gamma = exp(5.75 - 1.15 Tp/sqrt(Hs)) ,  5 below 3.6 and 1 above 5.
func PeakEnhancement(hs, tp float64) float64 {
	if hs <= 0 {
		return 1
	}
	age := tp / math.Sqrt(hs)
	switch {
	case age <= 3.6:
		return 5
	case age <= 5:
		return math.Exp(5.75 - 1.15*age)
	}
	return 1
}

// Density returns S in m^2 s at a frequency in rad/s.
func (s *Spectrum) Density(omega float64) float64 {
	if omega <= 0 || s.Hs <= 0 || s.Tp <= 0 {
		return 0
	}
	peak := 2 * math.Pi / s.Tp
	r := omega / peak
	sigma := 0.07
	if r > 1 {
		sigma = 0.09
	}
	off := (r - 1) / sigma
	r2 := r * r
	shape := math.Exp(-1.25/(r2*r2)) / (r2 * r2 * r)
	if s.Gamma != 1 {
		shape *= math.Pow(s.Gamma, math.Exp(-off*off/2))
	}
	return s.scale * 5.0 / 16 * s.Hs * s.Hs / peak * shape
}

// The spectrum is integrated over these frequencies, in peaks: below there is
// nothing, and above less than 1e-5 of the variance.
const (
	lowest  = 0.3
	highest = 20.0
	steps   = 4000
)

// slice returns the frequency in the middle of a slice and its width, rad/s.
// Slices widen with frequency.
func (s *Spectrum) slice(i int) (omega, width float64) {
	peak := 2 * math.Pi / s.Tp
	step := math.Log(highest/lowest) / steps
	omega = peak * lowest * math.Exp((float64(i)+0.5)*step)
	return omega, omega * step
}

// moment is the integral of w^n S.
func (s *Spectrum) moment(n int) float64 {
	sum := 0.0
	for i := range steps {
		omega, width := s.slice(i)
		sum += math.Pow(omega, float64(n)) * s.Density(omega) * width
	}
	return sum
}
