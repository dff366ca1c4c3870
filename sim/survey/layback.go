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
// above water, f the catenary factor on the cable (chord over arc, 0..1) and o
// the distance from the fix point aft to the sheave. With f = 1 it is the
// straight-wire formula of IHO C-13, chapter 4, 2.3.11.1. Cable too short for
// the depth is an error, never NaN.
func Layback(cableOut, fishDepth, sheaveHeight, catenaryFactor, offset float64) (float64, error) {
	chord, drop := catenaryFactor*cableOut, fishDepth+sheaveHeight
	if !(chord >= drop) {
		return 0, fmt.Errorf("impossible layback: %.2f m of cable at factor %.3f do not reach a fish %.2f m below the sheave", cableOut, catenaryFactor, drop)
	}
	return offset + math.Sqrt(chord*chord-drop*drop), nil
}
