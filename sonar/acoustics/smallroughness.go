package acoustics

import (
	"math"
	"math/cmplx"
)

// smallRoughness is the scattering by relief small against the wavelength on a
// level bottom, TR 9407, Section IV, Eqs. 7 and 50-52.
type smallRoughness struct {
	space    halfSpace
	k        float64 // wave number, 1/cm
	scale    float64 // 4 k⁴ w2, with the spectrum's h0 = 1 cm
	exponent float64 // γ
}

func newSmallRoughness(b *Bottom, perCM float64, space halfSpace) smallRoughness {
	k2 := perCM * perCM
	return smallRoughness{
		space:    space,
		k:        perCM,
		scale:    4 * k2 * k2 * b.SpectralStrength,
		exponent: b.SpectralExponent,
	}
}

// at returns the cross section at a grazing angle, before any slope average.
func (s *smallRoughness) at(grazing float64) float64 {
	sin, cos := math.Sincos(grazing)
	cos2 := cos * cos
	rho, kappa2 := s.space.density, s.space.kappa*s.space.kappa
	p := cmplx.Sqrt(kappa2 - complex(cos2, 0))
	below := complex(rho*sin, 0) + p
	y := (complex((rho-1)*(rho-1)*cos2+rho*rho, 0) - kappa2) / (below * below)

	// Bragg wave number, held off zero at the vertical.
	bragg2 := s.k * s.k * (4*cos2 + 0.01)
	spectrum := math.Exp(-0.5 * s.exponent * math.Log(bragg2))
	sin2 := sin * sin
	return s.scale * sin2 * sin2 * power(y) * spectrum
}
