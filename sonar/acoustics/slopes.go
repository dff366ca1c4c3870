package acoustics

import "math"

// slopes is the large-scale tilt of a bottom: a normal distribution of rms
// slope s (TR 9407, Section IV, Eq. 42), through which the small-scale terms
// are seen.
type slopes struct {
	rms float64 // s, also θs in radians
}

// newSlopes takes the wave number in 1/cm and α = γ/2-1.
func newSlopes(b *Bottom, perCM, alpha float64) slopes {
	relief := math.Pow(2*math.Pi*b.SpectralStrength, 1/alpha) / (2 * (1 - alpha))
	return slopes{rms: math.Sqrt(relief * math.Pow(perCM*perCM/alpha, (1-alpha)/alpha))}
}

// lit returns the share of the bottom that is not in the shadow of other
// bottom, S of Eqs. 43-45.
func (s slopes) lit(grazing float64) float64 {
	t := math.Tan(grazing) / s.rms
	if t > 2 {
		return 1
	}
	q := (math.Exp(-t*t)/math.SqrtPi - t*math.Erfc(t)) / (4 * t)
	return -math.Expm1(-2*q) / (2 * q)
}

// average returns the mean of a cross section over the slopes, Eqs. 46-49: a
// three-point Gauss-Hermite sum, dimmed by the lit share.
func (s slopes) average(grazing, lit float64, cross func(grazing float64) float64) float64 {
	const (
		outer  = 0.295410
		middle = 1.181636
		offset = 1.224745
	)
	lower := math.Max(grazing-offset*s.rms, 0)
	upper := math.Min(grazing+offset*s.rms, math.Pi/2)
	sum := outer*cross(lower) + middle*cross(grazing) + outer*cross(upper)
	return lit / math.SqrtPi * sum
}
