package sea

import (
	"errors"
	"fmt"
	"math"
)

// Grow returns the significant height in metres and the peak period in seconds
// of the waves a steady wind raises: wind is U10 in m/s, fetch in metres with 0
// for a sea that is fully developed, and depth in metres with 0 for deep water.
//
// Over deep water, with X = g F/U^2,
//
//	g Hs/U^2 = 0.0016 X^(1/2)  up to 0.243
//	g Tp/U   = 0.286 X^(1/3)   up to 8.13
//
// (Hasselmann et al. 1973 as put into engineering form in the Shore Protection
// Manual, US Army Corps of Engineers, 1984; used here with U10 itself). Where
// the bottom holds them down they stop at
//
//	g Hs/U^2 = 4 sqrt(1.06e-3 (g h/U^2)^1.3) ,  g Tp/U = 5.0 (g h/U^2)^0.375
//
// (I. R. Young and L. A. Verhagen, Coastal Engng 29, 47-78, 1996, the limit of
// long fetch; from memory) and at Tp = 9.78 sqrt(h/g) (Coastal Engineering
// Manual, EM 1110-2-1100, II-2; from memory). Growth that bends over smoothly
// into that limit is cut off at it instead, which is high by about a quarter
// where the two meet. Left out: how long the wind has blown, swell, breaking on
// a beach.
func Grow(wind, fetch, depth float64) (hs, tp float64) {
	if wind <= 0 {
		return 0, 0
	}
	height, period := wind*wind/gravity, wind/gravity // units of the growth laws
	h, t := fullHeight, fullPeriod
	if fetch > 0 {
		x := fetch / height
		h, t = min(h, 0.0016*math.Sqrt(x)), min(t, 0.286*math.Cbrt(x))
	}
	if depth > 0 {
		d := depth / height
		h = min(h, 4*math.Sqrt(1.06e-3*math.Pow(d, 1.3)))
		t = min(t, 5.0*math.Pow(d, 0.375), 9.78*math.Sqrt(d))
	}
	return h * height, t * period
}

// The fully developed sea, in units of U^2/g and U/g.
const (
	fullHeight = 0.243
	fullPeriod = 8.13
)

// CheckGrowth returns nil where [Grow] stands on measurements, otherwise an
// error with a line for each thing that does not. The growth laws come from
// winds of about 3 to 30 m/s over X from 100 to where the sea is full, and the
// limit of depth from g h/U^2 of 0.06 and more (from memory, the ranges are
// our reading of the scatter in the papers).
func CheckGrowth(wind, fetch, depth float64) error {
	var faults []error
	if wind < 3 || wind > 30 {
		faults = append(faults, fmt.Errorf("wind %.3g m/s is outside the 3 to 30 m/s waves were measured in", wind))
	}
	if x := gravity * fetch / (wind * wind); wind > 0 && fetch > 0 && x < 100 {
		faults = append(faults, fmt.Errorf("fetch %.3g km is too short for this wind, want at least %.2g km", fetch/1e3, 0.1*wind*wind/gravity))
	}
	if d := gravity * depth / (wind * wind); wind > 0 && depth > 0 && d < 0.06 {
		faults = append(faults, fmt.Errorf("depth %.3g m is too little for this wind, want at least %.2g m", depth, 0.06*wind*wind/gravity))
	}
	return errors.Join(faults...)
}
