package sonar

import (
	"math"

	"dryline/sonar/acoustics"
)

// hum is noise that a supply lets in twice in each period of the mains,
//
//	I(t) = level x cos^(2 sharpness)(2 pi f t) / its mean
//
// t counted from the start of the exercise: lines across the record at even
// ranges, c/(4f) apart, that slip from ping to ping by what the interval
// between pings misses of a whole number of half periods. The shape is our own
// choice. Left out: the wander of the mains.
type hum struct {
	table     [humSteps]float32 // intensity over half a period
	frequency float64           // of the lines, Hz
}

const humSteps = 1 << 10

func newHum(h Hum) *hum {
	n := &hum{frequency: 2 * h.Frequency}
	sum := 0.0
	shape := make([]float64, humSteps)
	for i := range shape {
		cos := math.Cos(math.Pi * (float64(i) + 0.5) / humSteps)
		shape[i] = math.Pow(cos*cos, max(h.Sharpness, 1))
		sum += shape[i]
	}
	level := acoustics.FromDecibels(h.Level) * humSteps / sum
	for i := range shape {
		n.table[i] = float32(shape[i] * level)
	}
	return n
}

func (h *hum) add(a *arrival) {
	// The phase is kept as a fraction of a turn in 32 bits, which wraps by itself.
	const turn = 1 << 32
	_, start := math.Modf(a.pose.Time * h.frequency)
	phase := uint32(int64(start * turn))
	step := uint32(int64(h.frequency * a.engine.listening / float64(len(a.intensity)) * turn))
	for k := range a.stray {
		a.stray[k] += h.table[phase>>22]
		phase += step
	}
}
