package survey

import (
	"fmt"
	"math"
)

// Layback is the horizontal distance from the fix point aft to the fish,
// metres:
//
//	L = o + sqrt((f C)^2 - (d + h)^2)
//
// with C the cable out from the sheave, d the depth of the fish, h the sheave
// above water, f the catenary factor on the cable (chord over arc, above 0 up
// to 1) and o the distance from the fix point aft to the sheave. With f = 1 it
// is the straight-wire formula of IHO C-13, chapter 4, 2.3.11.1, the longest
// the layback can be. Cable too short for the depth, a fish above the sheave
// and values that are not finite are errors, never NaN.
func Layback(cableOut, fishDepth, sheaveHeight, catenaryFactor, offset float64) (float64, error) {
	if !(catenaryFactor > 0 && catenaryFactor <= 1) {
		return 0, fmt.Errorf("impossible layback: catenary factor %g, want above 0 up to 1", catenaryFactor)
	}
	chord, drop := catenaryFactor*cableOut, fishDepth+sheaveHeight
	switch {
	case math.IsNaN(offset) || math.IsInf(offset, 0) || math.IsNaN(chord) || math.IsInf(chord, 0):
		return 0, fmt.Errorf("impossible layback: offset %g m and %g m of cable, want finite", offset, cableOut)
	case !(drop >= 0):
		return 0, fmt.Errorf("impossible layback: fish depth %g m and sheave height %g m put the fish above the sheave", fishDepth, sheaveHeight)
	case chord < drop:
		return 0, fmt.Errorf("impossible layback: %.2f m of cable at factor %.3f do not reach a fish %.2f m below the sheave", cableOut, catenaryFactor, drop)
	}
	return offset + math.Sqrt(chord*chord-drop*drop), nil
}
