package sonar

import (
	"math"

	"dryline/sonar/acoustics"
)

// ripple is noise that a supply lets in twice in each period of the mains,
//
//	I(t) = level x cos^(2 sharpness)(2 pi f t) / its mean
//
// t counted from the start of the exercise: lines across the record at even
// ranges, c/(4f) apart, that slip from ping to ping by what the interval
// between pings misses of a whole number of half periods. The shape is our own
// choice. Left out: the wander of the mains.
type ripple struct {
	table     [rippleSteps]float32 // intensity over half a period
	frequency float64              // of the lines, Hz
}

const rippleSteps = 1 << 10

func newRipple(h Hum) *ripple {
	r := &ripple{frequency: 2 * h.Frequency}
	sum := 0.0
	shape := make([]float64, rippleSteps)
	for i := range shape {
		cos := math.Cos(math.Pi * (float64(i) + 0.5) / rippleSteps)
		shape[i] = math.Pow(cos*cos, max(h.Sharpness, 1))
		sum += shape[i]
	}
	level := acoustics.FromDecibels(h.Level) * rippleSteps / sum
	for i := range shape {
		r.table[i] = float32(shape[i] * level)
	}
	return r
}

func (r *ripple) add(a *arrival) {
	// The phase is kept as a fraction of a turn in 32 bits, which wraps by itself.
	const turn = 1 << 32
	_, start := math.Modf(a.pose.Time * r.frequency)
	phase := uint32(int64(start * turn))
	step := uint32(int64(r.frequency * a.engine.listening / float64(len(a.intensity)) * turn))
	for k := range a.intensity {
		a.intensity[k] += r.table[phase>>22]
		phase += step
	}
}
