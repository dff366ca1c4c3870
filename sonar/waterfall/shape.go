package waterfall

import (
	"math"
	"slices"
)

// The shape is kept by ln(R/h), which on flat ground stands for the grazing angle:
// sin(grazing) = h/R.
const (
	angleBins = 24
	shapeSpan = 3.2 // out to R = 24 h
	binWidth  = shapeSpan / angleBins
)

// anchorBins are those from 80 to 10 degrees of grazing, over which a shape is 0 dB
// in the mean and the level is taken.
var anchorBins = func() (from, to int) {
	at := func(degrees float64) float64 { return -math.Log(math.Sin(degrees*math.Pi/180)) / binWidth }
	return int(math.Ceil(at(80))), int(at(10))
}

// shape learns how the level of one side differs from the prior's by grazing angle.
//
// What it keeps of each ping is the steps from each angle to the next, as a
// histogram for every pair. A target, or the border of another ground, makes steps
// in few of the pings at any one pair of angles, and those are outliers to it: the
// step taken for the true one is the M-estimate of location with Tukey's biweight
// (Beaton and Tukey, Technometrics 16, 1974; Huber, Robust Statistics, 1981,
// section 4.8, from memory). The level of the ground cancels in a step, so that it
// matters not how bright the ground is, or where it changes along the track.
type shape struct {
	steps [angleBins - 1]histogram
}

// learn takes in the levels of a ping by angle, dB, as far as it has any.
func (s *shape) learn(levels *[angleBins]float64, seen int) {
	for i := 1; i < seen; i++ {
		if step := levels[i] - levels[i-1]; !math.IsNaN(step) {
			s.steps[i-1].add(step)
		}
	}
}

// doubt is how many pings the prior weighs, at each angle.
const doubt = 100.0

// correction is the shape, dB over the prior, 0 in the mean over the anchored
// angles that were seen.
func (s *shape) correction() (c [angleBins]float64) {
	for i := range s.steps {
		h := &s.steps[i]
		c[i+1] = c[i] + h.location()*float64(h.count)/(float64(h.count)+doubt)
	}
	from, to := anchorBins()
	sum, weight := 0.0, 0.0
	for i := from; i < to; i++ {
		w := float64(s.steps[max(i-1, 0)].count)
		sum, weight = sum+w*c[i], weight+w
	}
	if weight == 0 {
		return [angleBins]float64{}
	}
	for i := range c {
		c[i] -= sum / weight
	}
	return c
}

// middle is the level in the midst of the anchored angles: the median, which a
// target and its shadow do not move.
func middle(levels *[angleBins]float64, seen int) (float64, bool) {
	from, to := anchorBins()
	var room [angleBins]float64
	sorted := room[:0]
	for _, v := range levels[min(from, seen):min(to, seen)] {
		if !math.IsNaN(v) {
			sorted = append(sorted, v)
		}
	}
	if len(sorted) == 0 {
		return 0, false
	}
	slices.Sort(sorted)
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2, true
}

// mean is a running mean of levels, dB.
type mean struct{ sum, count float64 }

// farthest is how far off the prior a ping is believed to be, dB: below lies a side
// that is dead.
const farthest = 40.0

func (m *mean) add(v float64) {
	if math.Abs(v) < farthest {
		m.sum, m.count = m.sum+v, m.count+1
	}
}

// shrunk is the mean with the prior's doubt in it.
func (m *mean) shrunk() float64 { return m.sum / (m.count + doubt) }

// histogram counts steps of the level.
type histogram struct {
	counts [2*stepBins + 1]uint32
	count  int
}

const (
	stepBins  = 48
	stepWidth = 0.25 // dB
	biweight  = 4.0  // beyond so many dB from the location a step is an outlier
)

func (h *histogram) add(step float64) {
	i := int(math.Round(step / stepWidth))
	h.counts[min(max(i, -stepBins), stepBins)+stepBins]++
	h.count++
}

// location is Tukey's biweight M-estimate, from the median on, dB.
func (h *histogram) location() float64 {
	if h.count == 0 {
		return 0
	}
	at, left := 0, (h.count+1)/2
	for at = range h.counts {
		if left -= int(h.counts[at]); left <= 0 {
			break
		}
	}
	m := float64(at-stepBins) * stepWidth
	for range 20 {
		sum, weight := 0.0, 0.0
		for i, n := range h.counts {
			v := float64(i-stepBins) * stepWidth
			u := (v - m) / biweight
			if n == 0 || math.Abs(u) >= 1 {
				continue
			}
			w := (1 - u*u) * (1 - u*u) * float64(n)
			sum, weight = sum+w*v, weight+w
		}
		if weight == 0 {
			break
		}
		next := sum / weight
		if math.Abs(next-m) < 1e-4 {
			return next
		}
		m = next
	}
	return m
}
