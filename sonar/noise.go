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
type normals [normalSteps]float32

// normalSteps of one table; two of its values make a deviate, out to five
// standard deviations.
const (
	normalBits  = 12
	normalSteps = 1 << normalBits
	normalMask  = normalSteps - 1
)

// normalDeviates holds even quantiles of the normal distribution, scaled so
// that the sum of two has the variance of one half: one part of a complex field
// of mean intensity one.
var normalDeviates = func() *normals {
	t := new(normals)
	square := 0.0
	for i := range t {
		z := distuv.UnitNormal.Quantile((float64(i) + 0.5) / normalSteps)
		square += z * z / normalSteps
	}
	for i := range t {
		t[i] = float32(distuv.UnitNormal.Quantile((float64(i)+0.5)/normalSteps) / (2 * math.Sqrt(square)))
	}
	return t
}()

// field makes one complex sample of mean intensity one from 48 random bits.
func (t *normals) field(bits uint64) (re, im float32) {
	re = t[bits&normalMask] + t[bits>>normalBits&normalMask]
	im = t[bits>>(2*normalBits)&normalMask] + t[bits>>(3*normalBits)&normalMask]
	return re, im
}

// noiseStream is the stream of the noise of one channel, side and ping.
func (e *Engine) noiseStream(channel int, side Side, number uint64) source {
	return source{state: e.hiss ^ chance.Mix(number^chance.Mix(uint64(2*channel)+uint64(side)))}
}
