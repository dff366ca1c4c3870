package trial

import (
	"math"

	"dryline/sim/mark"

	"gonum.org/v1/gonum/stat/distuv"
)

// z95 bounds the middle 95 % of a normal distribution.
const z95 = 1.959963984540054

// Interval is an estimate and the bounds of its 95 % interval.
type Interval struct {
	P    float64 `json:"p"`
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// Wilson is the score interval of a share k of n, 95 % (Brown, Cai and DasGupta, "Interval
// estimation for a binomial proportion", Statistical Science 2001, on why this one).
func Wilson(k, n float64) Interval {
	low, high := mark.Wilson(k, n, z95)
	return Interval{k / n, low, high}
}

// ClopperPearson is the exact interval of a share k of n, by beta quantiles.
func ClopperPearson(k, n int) Interval {
	out := Interval{P: float64(k) / float64(n), Low: 0, High: 1}
	if n == 0 {
		out.P = math.NaN()
		return out
	}
	const a = 0.05
	if k > 0 {
		out.Low = distuv.Beta{Alpha: float64(k), Beta: float64(n - k + 1)}.Quantile(a / 2)
	}
	if k < n {
		out.High = distuv.Beta{Alpha: float64(k + 1), Beta: float64(n - k)}.Quantile(1 - a/2)
	}
	return out
}

// Clustered is the share of found over all of runs that have several targets each: the
// ratio estimate, with Wilson's interval of as many independent targets as its spread from
// run to run is worth. Targets of one run share ground and weather, so that they are not
// independent; never more targets are counted than there are, nor fewer than runs.
func Clustered(found, of []float64) Interval {
	n, k := 0.0, 0.0
	for i := range of {
		n, k = n+of[i], k+found[i]
	}
	if n == 0 {
		return Wilson(0, 0)
	}
	p, runs := k/n, float64(len(of))
	worth := n
	if runs > 1 {
		ss := 0.0
		for i := range of {
			d := found[i] - p*of[i]
			ss += d * d
		}
		mean := n / runs
		variance := ss / (runs * (runs - 1)) / (mean * mean)
		if variance > 0 {
			worth = p * (1 - p) / variance
		} else {
			worth = runs // every run alike: no more is known than that so many were
		}
	}
	worth = min(max(worth, min(runs, n)), n)
	return Wilson(p*worth, worth)
}

// Mean is a mean and its 95 % interval.
type Mean struct {
	Mean float64 `json:"mean"`
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// MeanOf is the mean of values, by Student's t with the runs as the unit.
func MeanOf(values []float64) Mean {
	n := float64(len(values))
	if n == 0 {
		return Mean{math.NaN(), math.NaN(), math.NaN()}
	}
	mean := 0.0
	for _, v := range values {
		mean += v / n
	}
	if n < 2 {
		return Mean{mean, math.Inf(-1), math.Inf(1)}
	}
	ss := 0.0
	for _, v := range values {
		ss += (v - mean) * (v - mean)
	}
	se := math.Sqrt(ss / (n - 1) / n)
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: n - 1}.Quantile(0.975)
	return Mean{mean, mean - t*se, mean + t*se}
}

// Paired is the mean difference of values of the same runs.
func Paired(a, b []float64) Mean {
	d := make([]float64, min(len(a), len(b)))
	for i := range d {
		d[i] = a[i] - b[i]
	}
	return MeanOf(d)
}
