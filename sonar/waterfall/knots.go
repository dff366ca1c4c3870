package waterfall

import (
	"math"
	"slices"

	"dryline/sonar/recorder"
)

// knots lie over the record of one altitude, evenly in ln(R/h): smooth curves are
// worked out there and joined by straight lines.
type knots struct {
	key      int  // of the altitude
	laid     bool // for it
	altitude float64
	place    []float32          // of every sample beyond the first, in bins of the shape
	first    int                // sample beyond the altitude
	edges    [angleBins + 1]int // the samples at which the bins of the shape begin
	slants   []float64
	values   []float64 // of the prior there
	column   [2][waterPlaces + 1]float64
	expected []float32    // one over the prior, at every sample
	factor   [2][]float32 // what the samples of each side are multiplied by
	settled  [2]int       // the learning they are from, see Leveller; 0 for none
}

const (
	// knotsPerBin of the shape, for the prior: the lobes of the vertical beam are in it.
	knotsPerBin = 6
	// altitudeStep is how far apart the altitudes are that a leveller tells apart, in ln h.
	altitudeStep = 0.005
	// knotsKept is for how many altitudes it keeps them, 8 to 11 m, say: a fish that heaves or
	// follows a floor comes back. Of 1000 samples they take 1 MB.
	knotsKept = 64
)

// lay lays the knots over n samples.
func (q *knots) lay(n int, bin, altitude float64) {
	q.altitude, q.expected, q.settled = altitude, sized(q.expected, n), [2]int{}
	q.first = min(int(altitude/bin), n)
	for i := range q.edges {
		q.edges[i] = int(math.Ceil(altitude * math.Exp(float64(i)*binWidth) / bin))
	}
	q.place = slices.Grow(q.place[:0], n)
	for k := q.first; k < n; k++ {
		q.place = append(q.place, float32(math.Log(max((float64(k)+0.5)*bin/altitude, 1))/binWidth))
	}
	last := 0.0
	if len(q.place) > 0 {
		last = float64(q.place[len(q.place)-1])
	}
	count := int(last*knotsPerBin) + 2
	q.slants = slices.Grow(q.slants[:0], count)
	for i := range count {
		q.slants = append(q.slants, altitude*math.Exp((float64(i)+0.01)*binWidth/knotsPerBin))
	}
}

// expect works out one over the prior.
func (q *knots) expect(p Prior, set recorder.Receiver) {
	values := slices.Grow(q.values[:0], len(q.slants))[:len(q.slants)]
	q.values = values
	p.Counts(values, set, q.slants, q.altitude)
	for k, at := range q.place {
		s := float64(at) * knotsPerBin
		i := int(s)
		q.expected[q.first+k] = float32(1 / max(values[i]+(s-float64(i))*(values[i+1]-values[i]), 1))
	}
	q.water(p, set)
}

// In the water column the record is brought to a dark grey where it holds what is
// expected of it, which is noise: what swims or drifts there stands out, and the
// column is told from a shadow. But for that it is no brighter than the ground
// would come out with a gain so many times its own.
const (
	waterGrey = 0.075 // levelled amplitude
	waterGain = 60    // times

	waterPlaces = 16 // of the column at which the prior is asked
)

// water works out that of the water column.
func (q *knots) water(p Prior, set recorder.Receiver) {
	const count = waterPlaces
	dst, altitude := q.expected, q.altitude
	slants, values := q.column[0][:], q.column[1][:]
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

// factors returns the numbers that the samples of a side are multiplied by: one over the prior times
// a divisor by the place in bins, at least zero, as it was settled.
func (q *knots) factors(side, settled int, divisor *[angleBins + 1]float32) []float32 {
	if q.settled[side] == settled {
		return q.factor[side]
	}
	q.settled[side] = settled
	q.factor[side] = sized(q.factor[side], len(q.expected))
	dst := q.factor[side]
	for k, at := range q.place {
		s := min(max(at-0.5, 0), angleBins-1) // the value of a bin belongs to its middle
		i := int(s)
		dst[q.first+k] = q.expected[q.first+k] * (divisor[i] + (s-float32(i))*(divisor[i+1]-divisor[i]))
	}
	copy(dst[:q.first], q.expected[:q.first])
	return dst
}
