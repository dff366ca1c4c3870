package waterfall

import (
	"math"

	"dryline/sonar/recorder"
)

// knots lie over the record of one altitude, evenly in ln(R/h): smooth curves are
// worked out there and joined by straight lines.
type knots struct {
	place  []float32 // of every sample beyond the first, in bins of the shape
	first  int       // sample beyond the altitude
	slants []float64
	values []float64
}

// knotsPerBin of the shape, for the prior: the lobes of the vertical beam are in it.
const knotsPerBin = 6

// lay lays the knots over n samples.
func (q *knots) lay(n int, bin, altitude float64) {
	q.first = min(int(altitude/bin), n)
	q.place = q.place[:0]
	for k := q.first; k < n; k++ {
		q.place = append(q.place, float32(math.Log(max((float64(k)+0.5)*bin/altitude, 1))/binWidth))
	}
	last := 0.0
	if len(q.place) > 0 {
		last = float64(q.place[len(q.place)-1])
	}
	q.slants = q.slants[:0]
	for i := range int(last*knotsPerBin) + 2 {
		q.slants = append(q.slants, altitude*math.Exp((float64(i)+0.01)*binWidth/knotsPerBin))
	}
}

// expect fills dst with one over the prior.
func (q *knots) expect(dst []float32, p Prior, set recorder.Receiver, altitude float64) {
	if len(q.values) < len(q.slants) {
		q.values = make([]float64, len(q.slants))
	}
	p.Counts(q.values[:len(q.slants)], set, q.slants, altitude)
	for k, at := range q.place {
		s := float64(at) * knotsPerBin
		i := int(s)
		dst[q.first+k] = float32(1 / max(q.values[i]+(s-float64(i))*(q.values[i+1]-q.values[i]), 1))
	}
	q.water(dst, p, set, altitude)
}

// In the water column the record is brought to a dark grey where it holds what is
// expected of it, which is noise: what swims or drifts there stands out, and the
// column is told from a shadow. But for that it is no brighter than the ground
// would come out with a gain so many times its own.
const (
	waterGrey = 0.075 // levelled amplitude
	waterGain = 60    // times
)

// water fills the water column of dst.
func (q *knots) water(dst []float32, p Prior, set recorder.Receiver, altitude float64) {
	const count = 16
	slants, values := make([]float64, count+1), make([]float64, count+1)
	for i := range slants {
		slants[i] = altitude * (float64(i) + 0.5) / (count + 1) // short of the bottom
	}
	p.Counts(values, set, slants, altitude)
	ground := float32(1)
	for _, v := range dst[q.first:] {
		ground = min(ground, v)
	}
	for k := range dst[:q.first] {
		s := (float64(k) + 0.5) / float64(q.first) * count
		i := min(int(s), count-1)
		noise := values[i] + (s-float64(i))*(values[i+1]-values[i])
		dst[k] = min(waterGrey/float32(max(noise, 0.01)), waterGain*ground)
	}
}

// multiply fills dst with src times a factor by the place in bins, at least zero.
func (q *knots) multiply(dst, src []float32, factor *[angleBins + 1]float32) {
	for k, at := range q.place {
		s := min(max(at-0.5, 0), angleBins-1) // the value of a bin belongs to its middle
		i := int(s)
		dst[q.first+k] = src[q.first+k] * (factor[i] + (s-float32(i))*(factor[i+1]-factor[i]))
	}
	copy(dst[:q.first], src[:q.first])
}
