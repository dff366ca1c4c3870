package acoustics

import "math"

// LineArray is a straight, continuous transducer array without steering.
// Angles are off axis, from its broadside, in radians; wavelengths in metres.
type LineArray struct {
	Length  float64 // L, m
	Shading Shading
}

// LineArrayForWidth returns the array whose one-way half-power width is
// widthRad at a wavelength.
func LineArrayForWidth(widthRad, wavelength float64, shading Shading) LineArray {
	u := shading.crossing(math.Sqrt2 / 2)
	return LineArray{Length: u * wavelength / (math.Pi * math.Sin(widthRad/2)), Shading: shading}
}

// Amplitude returns the far-field pressure off axis over that on axis. For a
// uniform array it is sin(x)/x with x = π L sin(θ)/λ; it changes sign from lobe
// to lobe.
func (a LineArray) Amplitude(offAxisRad, wavelength float64) float64 {
	return a.Shading.Transform(math.Pi * a.Length / wavelength * math.Sin(offAxisRad))
}

// Power returns the one-way beam pattern, the square of [LineArray.Amplitude].
func (a LineArray) Power(offAxisRad, wavelength float64) float64 {
	b := a.Amplitude(offAxisRad, wavelength)
	return b * b
}

// TwoWay returns the power pattern of an array that both sends and receives.
func (a LineArray) TwoWay(offAxisRad, wavelength float64) float64 {
	b := a.Power(offAxisRad, wavelength)
	return b * b
}

// HalfPowerWidth returns the full one-way width between half-power points, in
// radians; 0.8859 λ/L (50.76 degrees λ/L) for a long uniform array. Half power
// is -3.0103 dB.
func (a LineArray) HalfPowerWidth(wavelength float64) float64 {
	return a.width(math.Sqrt2/2, wavelength)
}

// TwoWayHalfPowerWidth returns the full width between the half-power points of
// [LineArray.TwoWay], in radians; 0.6378 λ/L for a long uniform array.
func (a LineArray) TwoWayHalfPowerWidth(wavelength float64) float64 {
	return a.width(math.Sqrt(math.Sqrt2/2), wavelength)
}

// width returns the full width of the main lobe at an amplitude. An array too
// short to fall that far has a width of π.
func (a LineArray) width(amplitude, wavelength float64) float64 {
	sin := a.Shading.crossing(amplitude) * wavelength / (math.Pi * a.Length)
	return 2 * math.Asin(math.Min(sin, 1))
}

// EquivalentWidth returns the width in radians of the ideal beam, constant
// within and nothing outside, that gathers the same reverberation as the
// two-way pattern: ∫ b⁴ dθ, 2/3 λ/L for a uniform array. It holds for arrays of
// many wavelengths.
func (a LineArray) EquivalentWidth(wavelength float64) float64 {
	return a.Shading.fourthMoment() * wavelength / a.Length
}

// DirectivityIndex returns the gain in dB over a point receiver in noise that
// comes equally from all around: 10 log10(2L/λ) for a uniform array, for
// lengths of a wavelength and more.
func (a LineArray) DirectivityIndex(wavelength float64) float64 {
	return Decibels(2 * a.Length / wavelength * a.Shading.Efficiency())
}

// PistonDirectivityIndex returns the directivity index in dB of a rectangular
// piston in a baffle, 10 log10(4π L W/λ²), for sides longer than λ.
func PistonDirectivityIndex(length, width, wavelength float64) float64 {
	return Decibels(4 * math.Pi * length * width / (wavelength * wavelength))
}

// NearFieldRange returns L²/λ in metres, the range by which the beam has taken
// its far-field shape. Conventions differ: the last extremum on the axis lies
// at L²/4λ, and the wave front is flat to 22.5 degrees of phase at 2L²/λ.
func (a LineArray) NearFieldRange(wavelength float64) float64 {
	return a.Length * a.Length / wavelength
}

// Footprint returns the width R θ in metres of a beam of width θ at range R.
func Footprint(rangeM, widthRad float64) float64 { return rangeM * widthRad }
