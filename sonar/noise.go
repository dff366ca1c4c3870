package sonar

import (
	"math"

	"dryline/seabed/chance"

	"gonum.org/v1/gonum/stat/distuv"
)

// Noise is no part of the ground: it is drawn anew for every sample of every
// ping, and adds to the echo as pressure does. The field of the one and of the
// other are circular Gaussians, so their sum's intensity is exponential about
// the sum of their means (Goodman, Speckle Phenomena in Optics, 2007), while
// only the echo's share stays the same over the same ground.
//
// What comes in past the pulse compression (hum, other sounders, the hiss of
// bubbles) belongs here too. Left out: neighbouring samples of compressed noise
// that share a pulse.
type fields [fieldSteps]complex64

// fieldSteps of one table; two of its values make a sample, out to five standard
// deviations.
const (
	fieldBits  = 12
	fieldSteps = 1 << fieldBits
	fieldMask  = fieldSteps - 1
)

// noiseFields holds circular Gaussian values, each part over even quantiles of the
// normal distribution, scaled so that the sum of two has a mean intensity of one.
var noiseFields = func() *fields {
	t := new(fields)
	var deviates [fieldSteps]float64
	square := 0.0
	for i := range deviates {
		deviates[i] = distuv.UnitNormal.Quantile((float64(i) + 0.5) / fieldSteps)
		square += deviates[i] * deviates[i] / fieldSteps
	}
	scale := 1 / (2 * math.Sqrt(square))
	for i, j := range chance.Stream(0, "sonar/noise/fields").Perm(fieldSteps) {
		t[i] = complex64(complex(deviates[i]*scale, deviates[j]*scale))
	}
	return t
}()

// sample makes one sample of mean intensity one from 24 random bits.
func (t *fields) sample(bits uint64) (re, im float32) {
	a, b := t[bits&fieldMask], t[bits>>fieldBits&fieldMask]
	return real(a) + real(b), imag(a) + imag(b)
}

// noiseStream is the stream of the noise of one channel, side and ping.
func (e *Engine) noiseStream(channel int, side Side, number uint64) source {
	return source{state: e.hiss ^ chance.Mix(number^chance.Mix(uint64(2*channel)+uint64(side)))}
}
