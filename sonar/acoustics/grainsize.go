package acoustics

import (
	"fmt"
	"math"
)

// BottomForGrainSize returns the sediment of a mean grain size in phi units,
// φ = -log2(diameter in mm), from -1 (sandy gravel) to 9 (clay), by the
// regressions of APL-UW TR 9407 (1994), Section IV, Eqs. 2-10. The error is
// for a grain size outside that range.
func BottomForGrainSize(phi float64) (Bottom, error) {
	if !(-1 <= phi && phi <= 9) {
		return Bottom{}, fmt.Errorf("acoustics: mean grain size %g phi, want -1 to 9", phi)
	}
	b := Bottom{
		Name:             fmt.Sprintf("%g phi", phi),
		DensityRatio:     grainDensityRatio(phi),
		SoundSpeedRatio:  grainSoundSpeedRatio(phi),
		VolumeParameter:  0.002,
		SpectralExponent: 3.25,
		TrendExponent:    DefaultTrendExponent,
	}
	if phi >= 5.5 {
		b.VolumeParameter = 0.001
	}
	// Eq. 4. The regression was made in water of 1.528 m/ms.
	b.LossParameter = grainAttenuation(phi) * b.SoundSpeedRatio * 1.528 * math.Ln10 / (40 * math.Pi)
	relief := grainRelief(phi)
	b.SpectralStrength = 0.00207 * relief * relief
	return b, nil
}

// grainDensityRatio is Eq. 2.
func grainDensityRatio(phi float64) float64 {
	switch {
	case phi < 1:
		return 2.3139 + phi*(-0.17057+phi*0.007797)
	case phi < 5.3:
		return 3.0455 + phi*(-1.1069031+phi*(0.2290201-phi*0.0165406))
	}
	return 1.1565 - 0.0012973*phi
}

// grainSoundSpeedRatio is Eq. 3.
func grainSoundSpeedRatio(phi float64) float64 {
	switch {
	case phi < 1:
		return 1.2778 + phi*(-0.056452+phi*0.002709)
	case phi < 5.3:
		return 1.3425 + phi*(-0.1382798+phi*(0.0213937-phi*0.0014881))
	}
	return 1.0019 - 0.0024324*phi
}

// grainAttenuation is Eq. 5, after Hamilton, in dB/(m kHz).
func grainAttenuation(phi float64) float64 {
	switch {
	case phi < 0:
		return 0.4556
	case phi < 2.6:
		return 0.4556 + 0.0245*phi
	case phi < 4.5:
		return 0.1978 + 0.1245*phi
	case phi < 6:
		return 8.0399 + phi*(-2.5228+phi*0.20098)
	}
	return 0.9431 + phi*(-0.2041+phi*0.0117)
}

// grainRelief is Eq. 9, the rms relief over 100 cm of bottom, in cm.
func grainRelief(phi float64) float64 {
	if phi < 5 {
		return (2.03846 - 0.26923*phi) / (1 + 0.076923*phi)
	}
	return 0.5
}
