package nav

import (
	"math"
	"math/rand/v2"
)

// Spec says how the instruments lie. Zero is perfect instruments that speak at
// every tick, and no beacon.
type Spec struct {
	GNSS      GNSSSpec
	Heading   HeadingSpec
	Motion    MotionSpec
	FishDepth DepthSpec
	Altimeter AltimeterSpec
	Compass   CompassSpec
	Counter   CounterSpec
	Beacon    BeaconSpec
	SpeedLog  SpeedLogSpec
	Wind      WindSpec
}

// Timing is when an instrument speaks and of when. On a clock of fixed ticks it
// speaks at the first tick that is due, of the tick nearest to its delay ago.
//
// In an outage it goes on being due and has nothing to say: its display holds
// the last value and does not hold good, from the first report due in the outage
// to the first due after it.
type Timing struct {
	Rate    float64 // reports a second; 0 is every tick
	Delay   float64 // seconds
	Outages []Window
}

// Window is a stretch of time, seconds since the start, its end left out.
type Window struct{ From, To float64 }

// out reports whether it has nothing to say.
func (t *Timing) out(now float64) bool {
	for _, w := range t.Outages {
		if now >= w.From && now < w.To {
			return true
		}
	}
	return false
}

// Errors spoil one number, in the number's own unit.
type Errors struct {
	Bias  float64 // fixed
	Noise float64 // standard deviation from report to report
	Step  float64 // the last digit shown; 0 shows all
}

// spoil draws once whatever the errors are, so that turning a noise off moves
// nothing that is drawn after it.
func (e Errors) spoil(v float64, chance *rand.Rand) float64 {
	return quantise(v+e.Bias+e.Noise*chance.NormFloat64(), e.Step)
}

// quantise rounds to a multiple of the step; a step finer than the number's own
// last digit changes nothing.
func quantise(v, step float64) float64 {
	const finest = 1 << 53 // steps in a float64's own last digit
	n := v / step
	if !(step > 0 && math.Abs(n) < finest) {
		return v
	}
	return math.Round(n) * step
}
