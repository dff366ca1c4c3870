package acoustics

import "math"

// VerticalBeam is the pattern in the vertical plane of a side-scan transducer:
// a line array standing in that plane, tilted to look down and outwards.
//
// Depression angles are in radians below the outboard horizontal: 0 is
// outboard, π/2 straight down, π inboard under the fish, -π/2 straight up.
type VerticalBeam struct {
	Array LineArray // its height, not its length along the fish
	// Depression of the axis below the horizontal, radians.
	Depression float64
	// BackLobe is the level behind the array over that in front, dB, negative.
	// A line array alone sends as much backwards; a baffle does not.
	BackLobe float64
	// Fill is the least level in front of the array over that on the axis, dB,
	// negative, to fill the nulls of a line: what the housing and the edge of the
	// baffle scatter. Zero leaves the nulls.
	Fill float64
}

// Amplitude returns the pressure at a depression angle over that on the axis.
//
// In front it is the pattern of the array; behind, the same weakened by the
// back lobe. Between 75 and 105 degrees off axis the one passes smoothly into
// the other. That passage stands for the edge of a baffle and is our own
// choice; it is not a diffraction theory.
func (v VerticalBeam) Amplitude(depressionRad, wavelength float64) float64 {
	off := depressionRad - v.Depression
	edge := math.Cos(75 * math.Pi / 180)
	front := math.Max(0, math.Min((math.Cos(off)/edge+1)/2, 1))
	front *= front * (3 - 2*front)
	back := math.Sqrt(FromDecibels(v.BackLobe))
	pattern := v.Array.Amplitude(off, wavelength)
	if v.Fill < 0 {
		pattern = math.Max(math.Abs(pattern), math.Sqrt(FromDecibels(v.Fill)))
	}
	return (back + (1-back)*front) * pattern
}

// Power returns the one-way beam pattern, the square of
// [VerticalBeam.Amplitude].
func (v VerticalBeam) Power(depressionRad, wavelength float64) float64 {
	b := v.Amplitude(depressionRad, wavelength)
	return b * b
}

// TwoWay returns the power pattern of a beam that both sends and receives.
func (v VerticalBeam) TwoWay(depressionRad, wavelength float64) float64 {
	b := v.Power(depressionRad, wavelength)
	return b * b
}
