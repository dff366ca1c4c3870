package picture

import (
	"math"
	"strconv"
)

// NiceStep returns the smallest of 1, 2 and 5 times a power of ten that is not
// less than least, which must be positive and finite.
func NiceStep(least float64) float64 {
	if !(least > 0) || math.IsInf(least, 1) {
		panic("picture: tick step not positive and finite")
	}
	exponent := int(math.Floor(math.Log10(least)))
	for {
		for _, digit := range [...]float64{1, 2, 5} {
			// A whisker of slack, so that 0.2 computed as 0.2000…1 stays 0.2.
			if step := scaled(digit, exponent); step >= least*(1-1e-9) {
				return step
			}
		}
		exponent++
	}
}

// scaled returns the float64 nearest to digit·10^exponent.
func scaled(digit float64, exponent int) float64 {
	if exponent < 0 {
		return digit / math.Pow10(-exponent)
	}
	return digit * math.Pow10(exponent)
}

// Ticks appends to dst the multiples of step from lo to hi, both included, and
// returns it. The step must be positive.
func Ticks(dst []float64, lo, hi, step float64) []float64 {
	if !(step > 0) {
		panic("picture: tick step not positive")
	}
	first, last := math.Ceil(lo/step-1e-9), math.Floor(hi/step+1e-9)
	for k := first; k <= last; k++ {
		v := k * step
		if step < 1 {
			v = k / math.Round(1/step) // 0.3, not 0.30000000000000004
		}
		dst = append(dst, v+0) // no minus zero
	}
	return dst
}

// FormatTick returns a tick value with as many decimals as its step needs.
func FormatTick(v, step float64) string {
	decimals := max(0, int(-math.Floor(math.Log10(step)+1e-9)))
	return strconv.FormatFloat(v, 'f', decimals, 64)
}
