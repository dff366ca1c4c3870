package sonar

import (
	"math"

	"dryline/seabed/chance"
	"dryline/sonar/lanes"

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
//
// noiseFields holds circular Gaussian values, each part over even quantiles of the
// normal distribution, scaled so that the sum of two has a mean intensity of one. It goes
// out to five standard deviations.
var noiseFields = func() *lanes.Fields {
	t := new(lanes.Fields)
	var deviates [lanes.FieldSteps]float64
	square := 0.0
	for i := range deviates {
		deviates[i] = distuv.UnitNormal.Quantile((float64(i) + 0.5) / lanes.FieldSteps)
		square += deviates[i] * deviates[i] / lanes.FieldSteps
	}
	scale := 1 / (2 * math.Sqrt(square))
	for i, j := range chance.Stream(0, "sonar/noise/fields").Perm(lanes.FieldSteps) {
		t[i] = complex64(complex(deviates[i]*scale, deviates[j]*scale))
	}
	return t
}()

// noiseStream is the stream of the noise of one channel, side and ping.
func (e *Engine) noiseStream(channel int, side Side, number uint64) uint64 {
	return e.hiss ^ chance.Mix(number^chance.Mix(uint64(2*channel)+uint64(side)))
}
