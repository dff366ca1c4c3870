package acoustics

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// The intensity of an echo from many scatterers in one resolution cell is
// exponentially distributed; the mean of N independent such looks follows a
// gamma distribution of shape N. Few scatterers make the tail heavier: the
// intensity is then the product of an exponential and a gamma variate of unit
// mean and shape a, the K-distribution, D. A. Abraham and A. P. Lyons, IEEE J.
// Oceanic Eng. 27(4), 800-813 (2002).

// SpeckleContrast returns the standard deviation of the intensity over its
// mean for a number of looks: 1/√N.
func SpeckleContrast(looks float64) float64 { return 1 / math.Sqrt(looks) }

// SpeckleAmplitudeContrast is [SpeckleContrast] for the square root of the
// intensity: √(N Γ(N)²/Γ(N+½)² - 1), 0.5227 for one look.
func SpeckleAmplitudeContrast(looks float64) float64 {
	half, _ := math.Lgamma(looks + 0.5)
	whole, _ := math.Lgamma(looks)
	return math.Sqrt(looks*math.Exp(2*(whole-half)) - 1)
}

// SpeckleStdDB returns the standard deviation of the level in dB: 10/ln 10 ·
// √ψ'(N), 5.57 dB for one look.
func SpeckleStdDB(looks float64) float64 {
	return 10 / math.Ln10 * math.Sqrt(mathext.Zeta(2, looks)) // ψ'(N) = ζ(2,N)
}

// SpeckleBiasDB returns the mean of the level in dB less the level of the mean
// intensity: 10/ln 10 · (ψ(N) - ln N), -2.51 dB for one look.
func SpeckleBiasDB(looks float64) float64 {
	return 10 / math.Ln10 * (mathext.Digamma(looks) - math.Log(looks))
}

// KContrast returns the standard deviation of the intensity over its mean for
// a K-distribution of shape a: √(1 + 2/a).
func KContrast(shape float64) float64 { return math.Sqrt(1 + 2/shape) }

// KAmplitudeContrast is [KContrast] for the square root of the intensity:
// √(a Γ(a)²/(Γ(3/2)² Γ(a+½)²) - 1).
func KAmplitudeContrast(shape float64) float64 {
	half, _ := math.Lgamma(shape + 0.5)
	whole, _ := math.Lgamma(shape)
	return math.Sqrt(shape*math.Exp(2*(whole-half))*4/math.Pi - 1)
}

// KExceedance returns the probability that the intensity exceeds x times its
// mean, x > 0, for a K-distribution of shape a:
//
//	aᵃ/Γ(a) ∫ exp(a s - a eˢ - x e⁻ˢ) ds
//
// the mean of the exponential tail e^(-x/t) over a gamma variate t = eˢ.
func KExceedance(x, shape float64) float64 {
	// The integrand falls doubly exponentially both ways, so the plain sum
	// converges faster than any power of the step.
	const step = 0.01
	gamma, _ := math.Lgamma(shape)
	constant := shape*math.Log(shape) - gamma
	var sum float64
	for i := -4000; i <= 1000; i++ {
		s := float64(i) * step
		sum += math.Exp(constant + shape*(s-math.Exp(s)) - x*math.Exp(-s))
	}
	return sum * step
}
