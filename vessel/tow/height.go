package tow

// How a fish is held at a height by the winch: a metre too high pays out what brings it down by about
// a metre at this depth and cable, and then it is left to settle. The figures are our own choice of a careful
// hand: less than the whole miss, not too much at once, and a wait of nearly the cable's length of way.

// CableToCorrect is how much cable to pay out for a fish that is so much too high, metres; less than
// none hauls.
func CableToCorrect(miss, out, depth float64) float64 {
	ratio := out / max(depth, 1)
	return min(max(0.7*miss*ratio, -6), 6)
}

// SettlesIn is how long to wait after the cable was changed, seconds. speed is in m/s.
func SettlesIn(out, speed float64) float64 { return 0.8*out/max(speed, 0.5) + 5 }
