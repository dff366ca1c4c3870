package sonar

import (
	"math"

	"dryline/sonar/acoustics"
)

// Budget returns the sonar equation of one channel over a flat bottom, from a
// height of the fish above it in metres: the very terms the engine makes its
// samples from, so that a reckoning from it agrees with a record.
//
// The noise level is that after the matched filter, with the processing gain
// already taken off. The vertical beam carries with it what the near field or
// the focus does to the level along track, for over a flat bottom an angle
// stands for a slant range. Left out: layers in the water, effects.
func (e *Engine) Budget(channel int, bottom acoustics.Bottom, height float64) (acoustics.Budget, error) {
	t := e.channels[channel]
	alpha, err := acoustics.Absorption(e.sea.Absorption, t.spec.Frequency, e.sea.Temperature, e.sea.Salinity, e.sea.Depth, e.sea.PH)
	if err != nil {
		return acoustics.Budget{}, err
	}
	shading, err := shadingOf(t.spec.PulseShading)
	if err != nil {
		return acoustics.Budget{}, err
	}
	pulse := acoustics.Pulse{Duration: t.spec.PulseLength, Bandwidth: t.spec.Bandwidth, Shading: shading}
	if e.sea.FlatTrend {
		bottom.TrendExponent = 0
	}
	model := bottom.Scattering(t.spec.Frequency, e.soundSpeed)
	return acoustics.Budget{
		SourceLevel: t.spec.SourceLevel, Absorption: alpha, Height: height,
		EquivalentWidth: t.width, Resolution: pulse.Resolution(e.soundSpeed),
		NoiseLevel: acoustics.Decibels(float64(t.noise)),
		Strength:   model.Strength,
		Beam: func(depression float64) float64 {
			step := int((depression + math.Pi) * (verticalSteps / (2 * math.Pi)))
			return t.vertical[step&(verticalSteps-1)] *
				acoustics.FromDecibels(-t.array.AlongTrackLoss(height/math.Sin(depression), t.wavelength, t.spec.Focus))
		},
	}, nil
}
