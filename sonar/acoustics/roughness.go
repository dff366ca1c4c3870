package acoustics

import "math"

// roughness is the interface scattering of a bottom at one frequency.
type roughness struct {
	slopes    slopes
	kirchhoff kirchhoff
	small     smallRoughness
	large     largeRoughness

	facing      float64 // cosine of the angle where the Kirchhoff term gives way
	largeWeight float64 // share of the empirical branch, 1-f(y)
}

// newRoughness takes the wave number in 1/cm.
func newRoughness(b *Bottom, perCM float64) roughness {
	alpha := b.SpectralExponent/2 - 1
	space := b.halfSpace()
	r90, _ := space.reflection(1, 0)
	s := newSlopes(b, perCM, alpha)
	k := newKirchhoff(b, perCM, alpha, power(r90))

	// Eqs. 57-64.
	c4 := math.Pow(1000, 1/(1+alpha)) * math.Pow(k.curvature, 1/alpha)
	tilt := math.Atan(s.rms) * 180 / math.Pi
	return roughness{
		slopes:      s,
		kirchhoff:   k,
		small:       newSmallRoughness(b, perCM, space),
		large:       newLargeRoughness(b, s.rms, power(r90)),
		facing:      math.Pow(1/c4+4, -0.25),
		largeWeight: 1 - blend((tilt-7)/0.5),
	}
}

// at returns the cross section of the interface at a grazing angle of which
// the share lit is in view.
func (r *roughness) at(grazing, lit float64) float64 {
	// A weight this small lies far below the rounding of the result.
	const negligible = 1e-15
	var moderate, large float64
	if r.largeWeight < 1-negligible {
		near := blend((math.Cos(grazing) - r.facing) / 0.0125)
		composite := r.slopes.average(grazing, lit, r.small.at)
		moderate = near*r.kirchhoff.at(grazing) + (1-near)*composite
	}
	if r.largeWeight > negligible {
		large = r.large.at(grazing)
	}
	return (1-r.largeWeight)*moderate + r.largeWeight*large
}

// blend is the logistic f(x) = 1/(1+e^x) of Eq. 57.
func blend(x float64) float64 {
	return 1 / (1 + math.Exp(math.Max(-40, math.Min(x, 40))))
}
