package acoustics

import "math"

// SurfaceLoss returns the loss in dB of one reflection from the sea surface,
// going down through the bubbles below it and up again, at a frequency in
// hertz, a wind in m/s and a grazing angle in radians: APL-UW TR 9407 (1994),
// Section II, Eqs. 28a and 28b,
//
//	1.26e-3 U^1.57 f^0.85 / sin β      U >= 6 m/s
//
// with f in kHz, and below 6 m/s the loss at 6 m/s times exp(1.2(U-6)).
// Published for 10 to 100 kHz and extrapolated above. Scattering out of the
// mirror's direction by the waves themselves is left out: it spreads the sound
// and loses none.
func SurfaceLoss(frequencyHz, windSpeed, grazingRad float64) float64 {
	u := math.Max(windSpeed, 6)
	loss := 1.26e-3 * math.Pow(u, 1.57) * math.Pow(frequencyHz/1000, 0.85) / math.Sin(clampGrazing(grazingRad))
	if windSpeed < 6 {
		loss *= math.Exp(1.2 * (windSpeed - 6))
	}
	return loss
}

// SurfaceSlope returns the mean square slope of the sea surface in a wind in
// m/s, 0.0046 ln(2.1 U²), and 0.0034 below 1 m/s: APL-UW TR 9407 (1994),
// Section II (from memory).
func SurfaceSlope(windSpeed float64) float64 {
	if windSpeed < 1 {
		return 0.0034
	}
	return 0.0046 * math.Log(2.1*windSpeed*windSpeed)
}

// SurfaceStrength returns the backscattering strength of the sea surface from
// below, in dB re 1 m² of surface, at a frequency in hertz, a wind in m/s and a
// grazing angle in radians:
//
//	facets    exp(-tan²θ/s²)/(4π s² cos⁴θ)       θ = π/2 - β, s² the mean square slope
//	bubbles   10^-1.3 sin²β (1 - 10^(-loss/10))  with SurfaceLoss
//
// The facets are the high-frequency limit of TR 9407, Section II. The bubbles
// are our own fit: Lambert's law, reached when the layer lets nothing through
// and less by what it does let through. It meets the curves of TR 9407, which
// end at 70 kHz and 17 m/s, to 3 dB. Above that it is extrapolated.
func SurfaceStrength(frequencyHz, windSpeed, grazingRad float64) float64 {
	grazingRad = clampGrazing(grazingRad)
	sin, cos := math.Sincos(grazingRad)
	s2 := SurfaceSlope(windSpeed)
	facets := math.Exp(-cos*cos/(sin*sin*s2)) / (4 * math.Pi * s2 * sin * sin * sin * sin)
	bubbles := FromDecibels(-13) * sin * sin * (1 - FromDecibels(-SurfaceLoss(frequencyHz, windSpeed, grazingRad)))
	return Decibels(facets + bubbles)
}
