package sea

import "math"

const gravity = 9.81 // m/s^2

// deep is the k h beyond which tanh(k h) is 1 in a float64.
const deep = 20

// WaveNumber returns k in rad/m of a wave of omega rad/s over a depth in
// metres, 0 for deep water:
//
//	omega^2 = g k tanh(k h)
//
// the dispersion of linear gravity waves (Airy, Tides and Waves, 1845), to the
// last few bits. It is Newton's method from the guess of C. Eckart, "The
// propagation of gravity waves from deep to shallow water" (1952). Left out:
// surface tension, which matters below 5 cm of wavelength, and current.
func WaveNumber(omega, depth float64) float64 {
	k := omega * omega / gravity
	a := k * depth
	if depth <= 0 || a > deep || omega == 0 {
		return k
	}
	x := a / math.Sqrt(math.Tanh(a)) // k h
	for range 6 {
		tanh := math.Tanh(x)
		x -= (x*tanh - a) / (tanh + x*(1-tanh*tanh))
	}
	return x / depth
}

// Omega returns the frequency in rad/s of a wave number in rad/m; the inverse
// of [WaveNumber].
func Omega(k, depth float64) float64 {
	if depth <= 0 || k*depth > deep {
		return math.Sqrt(gravity * k)
	}
	return math.Sqrt(gravity * k * math.Tanh(k*depth))
}
