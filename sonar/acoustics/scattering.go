package acoustics

import "math"

// Scattering is a [Bottom] at one frequency and one speed of sound, with all
// that does not depend on the angle worked out.
type Scattering struct {
	rough  roughness
	volume volume
	trend  float64 // power factor
}

// Scattering prepares the bottom for a frequency in hertz and a speed of sound
// in m/s. Above 100 kHz it is the bottom at 100 kHz with the trend added.
func (b Bottom) Scattering(frequencyHz, soundSpeed float64) Scattering {
	f := math.Min(frequencyHz, bottomHighest)
	trend := 1.0
	if frequencyHz > bottomHighest && b.TrendExponent != 0 {
		trend = math.Pow(frequencyHz/bottomHighest, b.TrendExponent)
	}
	perCM := 2 * math.Pi * f / (soundSpeed * 100) // the report counts in centimetres
	s := Scattering{rough: newRoughness(&b, perCM), trend: trend}
	s.volume = newVolume(&b)
	return s
}

// FacetScattering is [Bottom.Scattering] of a facet of a bottom whose larger slopes
// are known one by one: a mean square slope of drawn² in all directions, an rms in
// radians, is taken out of the s² of the report's averages over slopes and of its
// shadowing, down to nothing. What the report makes of s² elsewhere, which is
// empirical, stays.
func (b Bottom) FacetScattering(frequencyHz, soundSpeed, drawn float64) Scattering {
	s := b.Scattering(frequencyHz, soundSpeed)
	rms := s.rough.slopes.rms
	s.rough.slopes.rms = math.Sqrt(math.Max(rms*rms-drawn*drawn, 0))
	return s
}

// Strength returns the bottom backscattering strength in dB re 1 m²; see
// [Bottom.Strength].
func (s *Scattering) Strength(grazingRad float64) float64 {
	rough, volume := s.Parts(grazingRad)
	return Decibels(rough + volume)
}

// Strengths fills dst with the strength at each grazing angle. It panics if
// the lengths differ.
func (s *Scattering) Strengths(dst, grazingRad []float64) {
	if len(dst) != len(grazingRad) {
		panic("acoustics: strengths and angles of different length")
	}
	for i, grazing := range grazingRad {
		dst[i] = s.Strength(grazing)
	}
}

// Parts returns the interface and volume scattering cross sections per unit
// area and solid angle, as power ratios, trend included.
func (s *Scattering) Parts(grazingRad float64) (rough, volume float64) {
	grazing := clampGrazing(grazingRad)
	shadow := s.rough.slopes.lit(grazing)
	rough = s.rough.at(grazing, shadow)
	volume = s.rough.slopes.average(grazing, shadow, s.volume.at)
	return s.trend * rough, s.trend * volume
}

// clampGrazing keeps an angle between 0.001 degree, below which the report
// holds its value, and the vertical.
func clampGrazing(grazing float64) float64 {
	return math.Max(0.001*math.Pi/180, math.Min(grazing, math.Pi/2))
}
