package survey

import "math"

// The height of the fish over the floor that a survey keeps to, as a share of the
// range scale (NOAA Hydrographic Surveys Specifications and Deliverables 2021,
// 6.1.2: 8 to 20 percent).
const (
	LowestHeight  = 0.08
	HighestHeight = 0.20
)

// HeightBand is the band of heights wanted: the one an exercise gives, or, if
// that has no upper end, [LowestHeight] to [HighestHeight].
func HeightBand(low, high float64) (float64, float64) {
	if high > 0 {
		return low, high
	}
	return LowestHeight, HighestHeight
}

// UsableRange is how far out one side can be used, slant range in metres: to the
// end of the range scale, and no further than the height carries. A fish below
// [LowestHeight] of the range scale is good for 12.5 times its height (the same
// paragraph).
func UsableRange(rangeScale, height float64) float64 {
	const carries = 1 / LowestHeight
	return min(rangeScale, carries*height)
}

// GroundReach is [UsableRange] over the ground, metres.
func GroundReach(rangeScale, height float64) float64 {
	reach := UsableRange(rangeScale, height)
	return math.Sqrt(max(reach*reach-height*height, 0))
}
