package sonar

import (
	"math"

	"dryline/sonar/acoustics"
	"dryline/sonar/recorder"
)

// Expectation is what a channel writes of ordinary flat ground by the sonar
// equation ([Engine.Budget]): medium sand, with the noise that comes with it. A
// desk that knows the sonar's papers and the water knows as much before the first
// ping. The echo's level is its mean over the speckle.
type Expectation struct {
	engine   *Engine
	channel  int
	bottom   acoustics.Bottom
	strength [expectedSteps + 1]float64 // dB, by grazing angle from 0 to a right angle
}

const expectedSteps = 256

// Expectation works out what a channel writes of ordinary ground.
func (e *Engine) Expectation(channel int) (*Expectation, error) {
	bottom, err := acoustics.MediumSand.Bottom()
	if err != nil {
		return nil, err
	}
	x := &Expectation{engine: e, channel: channel, bottom: bottom}
	b, err := e.Budget(channel, bottom, 1)
	if err != nil {
		return nil, err
	}
	for i := range x.strength {
		x.strength[i] = b.Strength(max(float64(i), 0.5) * math.Pi / 2 / expectedSteps)
	}
	return x, nil
}

// at is the strength at a grazing angle, dB.
func (x *Expectation) at(grazing float64) float64 {
	s := grazing * (expectedSteps * 2 / math.Pi)
	i := min(max(int(s), 0), expectedSteps-1)
	return x.strength[i] + (s-float64(i))*(x.strength[i+1]-x.strength[i])
}

// Counts fills dst with the mean amplitude at slant ranges, metres, all beyond the
// height of the fish, in recorder counts with the receiver set so. The mean
// amplitude of speckle is sqrt(pi)/2 of the root of its mean intensity (Rayleigh).
func (x *Expectation) Counts(dst []float64, set recorder.Receiver, slants []float64, height float64) {
	b, err := x.engine.Budget(x.channel, x.bottom, height)
	if err != nil {
		return // it was good when the expectation was made, and nothing it depends on changes
	}
	b.Strength = x.at
	noise := acoustics.FromDecibels(b.NoiseLevel)
	nominal := x.engine.channels[x.channel].nominal
	for i, r := range slants {
		intensity := acoustics.FromDecibels(b.Echo(r)) + noise
		dst[i] = NominalCounts * math.Sqrt(math.Pi/4*intensity) * math.Pow(10, (set.TVG(r)+set.Gain-nominal)/20)
	}
}
