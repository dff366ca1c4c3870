package acoustics

import "math"

// TransmissionLoss returns the one-way loss in dB of spherical spreading and
// absorption, 20 log10 R + α R, for a range in metres and α in dB/km.
func TransmissionLoss(rangeM, absorptionDBPerKM float64) float64 {
	return 20*math.Log10(rangeM) + absorptionDBPerKM*rangeM/1000
}

// ReverberationArea returns the area in m² of bottom that answers at once: the
// range times the equivalent two-way beamwidth in radians, times the slant
// resolution laid on the bottom, A = R Θ δ/cos θ. See
// [LineArray.EquivalentWidth] and [Pulse.Resolution].
func ReverberationArea(rangeM, equivalentWidthRad, slantResolution, grazingRad float64) float64 {
	return rangeM * equivalentWidthRad * GroundResolution(slantResolution, grazingRad)
}

// ReverberationLevel returns the level in dB re 1 µPa at the receiver of the
// sound sent back by an area of bottom:
//
//	RL = SL - 40 log10 R - 2 α R + Sb + 10 log10 A
//
// with SL in dB re 1 µPa at 1 m, Sb in dB re 1 m², α in dB/km, R in m and A in
// m².
func ReverberationLevel(sourceLevel, strength, rangeM, absorptionDBPerKM, areaM2 float64) float64 {
	return sourceLevel - 2*TransmissionLoss(rangeM, absorptionDBPerKM) + strength + Decibels(areaM2)
}

// Budget is all that decides how far a side-scan sees a flat bottom.
type Budget struct {
	SourceLevel     float64 // dB re 1 µPa at 1 m
	Absorption      float64 // dB/km
	Height          float64 // of the fish above the bottom, m
	EquivalentWidth float64 // two-way, along track, rad
	Resolution      float64 // slant, m
	NoiseLevel      float64 // where the echo is compared, dB re 1 µPa
	// ProcessingGain of the pulse, dB, which lifts the echo above the noise.
	ProcessingGain float64
	// Strength of the bottom in dB re 1 m² at a grazing angle in radians.
	Strength func(grazingRad float64) float64
	// Beam is the two-way vertical power pattern at a depression angle in
	// radians; nil for a beam that covers all angles.
	Beam func(depressionRad float64) float64
}

// Echo returns the level in dB re 1 µPa of the bottom at a slant range, before
// processing gain; -Inf within the water column.
func (b *Budget) Echo(slantRange float64) float64 {
	extent := GroundExtent(slantRange, b.Resolution, b.Height)
	if extent == 0 {
		return math.Inf(-1)
	}
	grazing := GrazingAngle(slantRange, b.Height)
	level := ReverberationLevel(b.SourceLevel, b.Strength(grazing), slantRange, b.Absorption,
		slantRange*b.EquivalentWidth*extent)
	if b.Beam != nil {
		level += Decibels(b.Beam(grazing)) // a flat bottom is met at its depression
	}
	return level
}

// SignalToNoise returns the ratio in dB of the bottom echo to the noise at a
// slant range.
func (b *Budget) SignalToNoise(slantRange float64) float64 {
	return b.Echo(slantRange) + b.ProcessingGain - b.NoiseLevel
}

// RangeLimit returns the greatest slant range, up to a limit in metres, at
// which the bottom stands a required number of dB above the noise. It reports
// false when it does so nowhere.
func (b *Budget) RangeLimit(requiredDB, limit float64) (slantRange float64, ok bool) {
	// Search inwards, so that a null of the beam closer in is no matter.
	const steps = 4000
	step := (limit - b.Height) / steps
	if step <= 0 {
		return 0, false
	}
	far := limit
	for i := range steps {
		near := limit - float64(i)*step
		if b.SignalToNoise(near) >= requiredDB {
			return b.bisectLimit(near, far, requiredDB), true
		}
		far = near
	}
	return 0, false
}

// bisectLimit narrows a limit between a range that is heard and one that is
// not.
func (b *Budget) bisectLimit(near, far, requiredDB float64) float64 {
	for range 50 {
		middle := (near + far) / 2
		if b.SignalToNoise(middle) >= requiredDB {
			near = middle
		} else {
			far = middle
		}
	}
	return near
}
