package sonar

import (
	"math"

	"dryline/sonar/acoustics"
)

// quiet is what a channel hears in every ping beside echoes and noise, per bin:
// its own pulse as it goes out, and the water.
//
// While the pulse is out the receiver is blocked and writes whatever it can; then
// the transducer and its housing ring down, 60 dB in RingDown. How loud that begins
// only says how long it takes to fade: as loud as the pulse a metre away, our own
// choice.
//
// What drifts in the water everywhere, plankton and silt, scatters by the volume
// reverberation of Urick (Principles of Underwater Sound, 1983, chapter 8),
//
//	RL = SL - 40 log R - 2 alpha R + Sv + 10 log(R^2 Theta Psi delta)
//
// with Psi the two-way vertical pattern gathered over a whole turn. It has drifted
// on by the next ping. Left out: floor and surface, which take their part of the
// turn, and the roll of the fish.
func (e *Engine) quiet(t *tuned) []float32 {
	out := make([]float32, e.spec.Samples)
	turn := 0.0
	for _, v := range t.vertical {
		turn += v * 2 * math.Pi / verticalSteps
	}
	pulse := e.soundSpeed / 2 * t.spec.PulseLength
	const fade = 60 // dB
	for k := range out {
		r := (float64(k) + 0.5) * e.bin
		if s := e.sea.Scattering; s < 0 {
			// As facets do, each bin holds its own length of water.
			out[k] += float32(acoustics.FromDecibels(s) * t.width * r * r * turn * e.bin * float64(t.propagate[k]))
		}
		if t.spec.RingDown > 0 {
			late := max(r-pulse, 0) * 2 / e.soundSpeed
			out[k] += float32(acoustics.FromDecibels(t.spec.SourceLevel - fade*late/t.spec.RingDown))
		}
	}
	return out
}
