package acoustics

import "math"

// HeightFromShadow returns the height in metres of a target that casts a
// shadow of a length at a range, below a fish at height h:
//
//	H = h Ls/(R+Ls)
//
// by similar triangles on a flat bottom, as in IHO C-13 (2005), Chapter 4,
// s. 2.3.11.4. The shadow begins where the range ends, and the two must be of
// one kind: either both along the ground, from the foot of the target, or both
// along the slant, from its top. A slant range to the foot with a shadow along
// the slant biases the height.
func HeightFromShadow(height, shadowLength, rangeM float64) float64 {
	return height * shadowLength / (rangeM + shadowLength)
}

// ShadowLength is the inverse of [HeightFromShadow], Ls = H R/(h-H), in the
// same kind of range. A target as high as the fish casts an endless shadow.
func ShadowLength(targetHeight, height, rangeM float64) float64 {
	if targetHeight >= height {
		return math.Inf(1)
	}
	return targetHeight * rangeM / (height - targetHeight)
}
