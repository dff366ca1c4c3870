package sonar

import (
	"math"

	"dryline/sonar/acoustics"
	"dryline/sonar/recorder"
)

// Expectation foretells the counts a channel writes of ordinary flat ground by the sonar
// equation ([Engine.Budget]): medium sand, with the noise that comes with it. A
// desk that knows the sonar's papers and the water knows as much before the first
// ping. The echo's level is its mean over the speckle.
type Expectation struct {
	budget   acoustics.Budget
	vertical []float64                  // two-way pattern by angle below horizontal
	nominal  float64                    // echo level that is [NominalCounts] without any gain, dB
	strength [expectedSteps + 1]float64 // dB, by grazing angle from 0 to a right angle
	loss     [expectedSteps + 1]float64 // along track, dB, by ln of the slant range from nearestSlant to farthestSlant
}

const (
	expectedSteps               = 256
	nearestSlant, farthestSlant = 0.5, 1500.0 // metres
)

// Expectation works out what a channel writes of ordinary ground.
func (e *Engine) Expectation(channel int) (*Expectation, error) {
	bottom, err := acoustics.MediumSand.Bottom()
	if err != nil {
		return nil, err
	}
	b, err := e.Budget(channel, bottom, 1)
	if err != nil {
		return nil, err
	}
	t := e.channels[channel]
	x := &Expectation{budget: b, vertical: t.vertical, nominal: t.nominal}
	for i := range x.strength {
		share := float64(i) / expectedSteps
		x.strength[i] = b.Strength(max(share, 0.5/expectedSteps) * math.Pi / 2)
		x.loss[i] = t.array.AlongTrackLoss(nearestSlant*math.Pow(farthestSlant/nearestSlant, share), t.wavelength, t.spec.Focus)
	}
	return x, nil
}

// straight joins the steps of a table by straight lines.
func straight(table *[expectedSteps + 1]float64, share float64) float64 {
	s := min(max(share, 0), 1) * expectedSteps
	i := min(int(s), expectedSteps-1)
	return table[i] + (s-float64(i))*(table[i+1]-table[i])
}

// Counts fills dst with the mean amplitude at slant ranges, metres, in recorder counts
// with the receiver set so: short of the height of the fish that of noise alone. The mean
// amplitude of speckle is sqrt(pi)/2 of the root of its mean intensity (Rayleigh).
func (x *Expectation) Counts(dst []float64, set recorder.Receiver, slants []float64, height float64) {
	b := x.budget
	b.Height = height
	b.Strength = func(grazing float64) float64 { return straight(&x.strength, grazing*2/math.Pi) }
	b.Beam = func(depression float64) float64 {
		step := int((depression + math.Pi) * (verticalSteps / (2 * math.Pi)))
		loss := straight(&x.loss, math.Log(height/math.Sin(depression)/nearestSlant)/math.Log(farthestSlant/nearestSlant))
		return x.vertical[step&(verticalSteps-1)] * acoustics.FromDecibels(-loss)
	}
	noise := acoustics.FromDecibels(b.NoiseLevel)
	for i, r := range slants {
		intensity := acoustics.FromDecibels(b.Echo(r)) + noise
		dst[i] = NominalCounts * math.Sqrt(math.Pi/4*intensity) * math.Pow(10, (set.TVG(r)+set.Gain-x.nominal)/20)
	}
}
