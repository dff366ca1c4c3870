package acoustics

import "math"

// GroundRange returns √(R²-h²), the horizontal distance in metres to a point of
// a flat bottom at slant range R below a fish at height h. A slant range short
// of the bottom gives zero: that is water column. Refraction is left out.
func GroundRange(slantRange, height float64) float64 {
	if slantRange <= height {
		return 0
	}
	return math.Sqrt((slantRange - height) * (slantRange + height))
}

// GrazingAngle returns asin(h/R) in radians, the grazing angle on a flat bottom
// at slant range R; π/2 for ranges short of the bottom.
func GrazingAngle(slantRange, height float64) float64 {
	if slantRange <= height {
		return math.Pi / 2
	}
	return math.Asin(height / slantRange)
}

// GroundResolution returns the extent along a flat bottom, in metres, of a
// slant resolution at a grazing angle: δ/cos θ. Near nadir, where it runs to
// infinity, use [GroundExtent].
func GroundResolution(slantResolution, grazingRad float64) float64 {
	return slantResolution / math.Cos(grazingRad)
}

// GroundExtent returns the extent in metres of the part of a flat bottom
// within half a slant resolution of slant range R. It stays finite at the
// first return.
func GroundExtent(slantRange, slantResolution, height float64) float64 {
	half := slantResolution / 2
	return GroundRange(slantRange+half, height) - GroundRange(slantRange-half, height)
}
