package acoustics

import (
	"errors"
	"math"
)

// Bottom holds what the APL-UW model needs to know of a sea floor. The names
// follow APL-UW TR 9407 (1994), Section IV.
type Bottom struct {
	Name string

	DensityRatio     float64 // ρ, bottom over water, 1 to 3
	SoundSpeedRatio  float64 // ν, bottom over water, 0.8 to 3
	LossParameter    float64 // δ, imaginary over real part of the wave number, to 0.1
	VolumeParameter  float64 // σ2, volume scattering over absorption, to 1
	SpectralExponent float64 // γ of the relief spectrum, 2.4 to 3.9
	SpectralStrength float64 // w2 of the relief spectrum, cm⁴, to 1

	// TrendExponent is n in the 10 n log10(f/100 kHz) dB that
	// [Bottom.Strength] adds above 100 kHz; zero switches the trend off.
	TrendExponent float64
}

// The band, in hertz, of the published bottom model.
const (
	bottomLowest  = 10e3
	bottomHighest = 100e3
)

// DefaultTrendExponent is the growth with frequency given to sediments above
// 100 kHz: 1.6 dB at 455 kHz, 2.4 dB at 900 kHz.
//
// The published evidence points to growth but does not fix it. Boehme and
// others (J. Acoust. Soc. Am. 77(3), 962-974, 1985) found strength growing as
// f^1.0 to f^1.5 over sand at 2 to 10 degrees grazing from 30 to 95 kHz.
// Ivakin and Sessarego (J. Acoust. Soc. Am. 122, EL165, 2007) found the level
// of laboratory sands from 150 kHz to 8 MHz to scale with grain size over
// wavelength. Run on to 900 kHz, the first slopes would set sand above cobble;
// a quarter of the smallest keeps the published order of sediments, and is our
// choice. Ground whose stones already exceed the 15 mm wavelength at 100 kHz
// (cobble, rock) has no grain scale left to grow by and carries zero.
const DefaultTrendExponent = 0.25

// Extrapolated reports whether a frequency in hertz lies outside the 10 to
// 100 kHz for which the bottom model was published.
func Extrapolated(frequencyHz float64) bool {
	return !(bottomLowest <= frequencyHz && frequencyHz <= bottomHighest)
}

// Strength returns the bottom backscattering strength, in dB re 1 m² of
// bottom, at a grazing angle in radians (0 along the bottom, π/2 at nadir), a
// frequency in hertz and a speed of sound in the water in m/s.
//
// It is the bottom model of the APL-UW High-Frequency Ocean Environmental
// Acoustic Models Handbook, TR 9407 (1994), Section IV:
//
//	Sb = 10 log10(σr + σv)
//
// with σr the interface (Kirchhoff near vertical, composite roughness at lower
// angles, an empirical branch for very rough ground) and σv the sediment
// volume. Angles below 0.001 degree take that value.
//
// Published for 10 to 100 kHz and water of 1400 to 1600 m/s, to about 3 dB for
// well-known sand and silt above 5 degrees, 5 to 10 dB otherwise. Above 100 kHz
// the rms slope of the interface terms loses its meaning, so the model is
// evaluated at 100 kHz and [Bottom.TrendExponent] adds a trend; see
// [Extrapolated]. Layering, gas, ripple direction and shear are left out.
//
// [Bottom.Scattering] is cheaper for many angles at one frequency.
func (b Bottom) Strength(grazingRad, frequencyHz, soundSpeed float64) float64 {
	s := b.Scattering(frequencyHz, soundSpeed)
	return s.Strength(grazingRad)
}

// ForwardLoss returns the loss of a reflection from the flat bottom, in dB, at
// a grazing angle in radians: -20 log10 |R|, TR 9407 Section IV, Eqs. 30-33.
func (b Bottom) ForwardLoss(grazingRad float64) float64 {
	r, _ := b.halfSpace().reflection(math.Sincos(grazingRad))
	return -Decibels(power(r))
}

// CriticalAngle returns the grazing angle in radians below which a lossless
// bottom would reflect everything: acos(1/ν). It is zero where the bottom is
// slower than the water.
func (b Bottom) CriticalAngle() float64 {
	if b.SoundSpeedRatio <= 1 {
		return 0
	}
	return math.Acos(1 / b.SoundSpeedRatio)
}

// Check returns nil when the bottom lies within the ranges the model was
// published for, otherwise one error that names every parameter out of range.
// The scattering of such a bottom may not be a number.
func (b Bottom) Check() error {
	return errors.Join(
		Interval{1, 3}.check("density ratio", b.DensityRatio, ""),
		Interval{0.8, 3}.check("sound speed ratio", b.SoundSpeedRatio, ""),
		Interval{math.SmallestNonzeroFloat64, 0.1}.check("loss parameter", b.LossParameter, ""),
		Interval{0, 1}.check("volume parameter", b.VolumeParameter, ""),
		Interval{2.4, 3.9}.check("spectral exponent", b.SpectralExponent, ""),
		Interval{math.SmallestNonzeroFloat64, 1}.check("spectral strength", b.SpectralStrength, "cm⁴"),
	)
}
