package sonar

import "math"

// propagateInto turns the energy gathered per bin into intensity at the receiver,
// linear re 1 uPa^2: source level, spreading, absorption.
func (t *tuned) propagateInto(energy []float32) {
	for k, p := range t.propagate[:len(energy)] {
		energy[k] *= p
	}
}

// receive turns the intensity of one channel into samples: pulse, noise,
// speckle, gain, quantisation.
//
// Echo and noise are both sums of many independent contributions, so their
// sum's intensity is exponential about the sum of their means, whatever share
// each has (circular Gaussian pressure; Rayleigh amplitude).
func (e *Engine) receive(dst []uint16, intensity, scratch []float32, t *tuned, random *source) {
	smear(intensity[:len(dst)], scratch, t.smear)
	noise := t.noise
	if e.NoiseOff {
		noise = 0
	}
	gain := t.gain[:len(dst)]
	for k := range dst {
		i := intensity[k] + noise
		if !e.SpeckleOff {
			if k&1 == 0 {
				random.next()
			}
			i *= random.exponential(k & 1)
		}
		v := float32(math.Sqrt(float64(i)))*gain[k] + 0.5
		dst[k] = uint16(min(v, fullScale))
	}
}

// smear replaces each bin by the mean over the n bins a compressed pulse
// centred on it covers; with n even, half of each bin at the ends. scratch is
// at least as long as x.
func smear(x, scratch []float32, n int) {
	if n < 2 {
		return
	}
	half := n / 2
	ends := float32(0) // what of the end bins lies outside
	if n%2 == 0 {
		ends = 0.5
	}
	copy(scratch, x)
	inv := 1 / float32(n)
	for k := range x {
		low, high := max(0, k-half), min(len(x)-1, k+half)
		sum := -ends * (scratch[low] + scratch[high])
		for _, v := range scratch[low : high+1] {
			sum += v
		}
		x[k] = sum * inv
	}
}
