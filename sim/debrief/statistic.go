package debrief

import (
	"math"
	"slices"
)

// round gives a number to a thousandth; what is not finite becomes zero, so
// only call it with what is known to be finite or harmless at zero.
func round(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	if math.Abs(v) > 1e12 {
		return v // no thousandths left in it
	}
	return math.Round(v*1000)/1000 + 0 // + 0: no negative zero
}

// known is a rounded number, or nil if it is not finite.
func known(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = round(v)
	return &v
}

// shareDown is a share in percent, given to a thousandth and never rounded up:
// only the whole is 100.
func shareDown(percent float64) float64 {
	down := round(math.Floor(percent*1000+1e-6) / 1000)
	if percent < 100 {
		down = min(down, 99.999)
	}
	return down
}

// knownShare is shareDown, or nil if there is no number.
func knownShare(percent float64) *float64 {
	if math.IsNaN(percent) {
		return nil
	}
	percent = shareDown(percent)
	return &percent
}

// sample gathers the values of one quantity. Values that are not finite are
// not values.
type sample struct {
	values    []float64
	sum, sum2 float64
	min, max  float64
}

func (s *sample) add(v float64) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return
	}
	if len(s.values) == 0 {
		s.min, s.max = v, v
	}
	s.values = append(s.values, v)
	s.sum += v
	s.sum2 += v * v
	s.min, s.max = min(s.min, v), max(s.max, v)
}

func (s *sample) n() float64    { return float64(len(s.values)) }
func (s *sample) mean() float64 { return s.sum / s.n() } // NaN without values
func (s *sample) rms() float64  { return math.Sqrt(s.sum2 / s.n()) }
func (s *sample) worst() float64 {
	return max(math.Abs(s.min), math.Abs(s.max))
}

// spread is nil without values.
func (s *sample) spread() *Spread {
	if len(s.values) == 0 {
		return nil
	}
	return &Spread{Mean: round(s.mean()), Min: round(s.min), Max: round(s.max)}
}

// share is the percentage of values that pass, NaN without values.
func (s *sample) share(pass func(float64) bool) float64 {
	n := 0
	for _, v := range s.values {
		if pass(v) {
			n++
		}
	}
	return 100 * float64(n) / s.n()
}

// percentile is the smallest absolute value that p percent do not exceed
// (nearest rank), NaN without values.
func (s *sample) percentile(p float64) float64 {
	if len(s.values) == 0 {
		return math.NaN()
	}
	sorted := make([]float64, len(s.values))
	for i, v := range s.values {
		sorted[i] = math.Abs(v)
	}
	slices.Sort(sorted)
	rank := int(math.Ceil(p / 100 * s.n()))
	return sorted[min(max(rank, 1), len(sorted))-1]
}

func (s *sample) statistic() Statistic {
	return Statistic{Mean: round(s.mean()), RMS: round(s.rms()), P95: round(s.percentile(95)), Max: round(s.worst())}
}

// errorSample gathers errors along and across a line.
type errorSample struct{ along, across, distance sample }

func (e *errorSample) add(along, across float64) {
	e.along.add(along)
	e.across.add(across)
	e.distance.add(math.Hypot(along, across))
}

func (e *errorSample) report() *Errors {
	if len(e.distance.values) == 0 {
		return nil
	}
	return &Errors{Along: e.along.statistic(), Across: e.across.statistic(), Distance: e.distance.statistic()}
}
