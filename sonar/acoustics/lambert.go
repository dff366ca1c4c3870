package acoustics

import "math"

// Published levels, in dB, for the μ of Lambert's law.
const (
	// LambertDeepSea is the level K. V. Mackenzie found at 530 and 1030 Hz in
	// deep water, J. Acoust. Soc. Am. 33(11), 1498-1504 (1961). At side-scan
	// frequencies it is some 10 dB too low.
	LambertDeepSea = -27.0
	// LambertCeiling is 10 log10(1/π): a bottom that sends back all it gets.
	LambertCeiling = -4.971498726941338
)

// Lambert returns the bottom backscattering strength, in dB re 1 m², by
// Lambert's law,
//
//	Sb = 10 log10 μ + 20 log10 sin θ
//
// for a level 10 log10 μ in dB and a grazing angle in radians. It holds below
// about 45 degrees.
func Lambert(levelDB, grazingRad float64) float64 {
	return levelDB + 2*Decibels(math.Sin(grazingRad))
}
