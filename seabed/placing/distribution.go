package placing

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Law names the shape of a distribution.
type Law string

// The laws.
const (
	Uniform    Law = "uniform"     // all values alike
	LogUniform Law = "log_uniform" // all ratios alike: as many between 1 and 2 as between 2 and 4
	Normal     Law = "normal"      // about Mean by Deviation, cut off at the bounds
)

// Laws lists them.
func Laws() []Law { return []Law{Uniform, LogUniform, Normal} }

// Distribution is how a number is drawn: by a law, from Low to High. The zero value
// is always 0.
type Distribution struct {
	Law       Law // empty is Uniform
	Low, High float64
	Mean      float64 // of a normal distribution before it is cut off
	Deviation float64 // its standard deviation likewise
}

// Fixed is always the same number.
func Fixed(v float64) Distribution { return Distribution{Law: Uniform, Low: v, High: v} }

// check returns what is wrong with the distribution.
func (d Distribution) check() error {
	for _, v := range [...]float64{d.Low, d.High, d.Mean, d.Deviation} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return errors.New("a number is not finite")
		}
	}
	if d.Low > d.High {
		return fmt.Errorf("%g to %g: the bounds are the wrong way round", d.Low, d.High)
	}
	switch d.Law {
	case "", Uniform:
	case LogUniform:
		if d.Low <= 0 {
			return fmt.Errorf("%g has no logarithm", d.Low)
		}
	case Normal:
		if d.Mean < d.Low || d.Mean > d.High || d.Deviation <= 0 {
			return fmt.Errorf("mean %g by %g is not within %g to %g", d.Mean, d.Deviation, d.Low, d.High)
		}
	default:
		return fmt.Errorf("%q is no law (want one of %v)", d.Law, Laws())
	}
	return nil
}

// Quantile is the number below which a share u of the draws lie, 0 to 1: inversion
// of the cumulative distribution, which turns one uniform draw into one draw of any
// law (Devroye, Non-Uniform Random Variate Generation, 1986, chapter II.2). The
// normal one is cut off by inverting only the part of it between the bounds.
func (d Distribution) Quantile(u float64) float64 {
	var v float64
	switch d.Law {
	case LogUniform:
		v = d.Low * math.Pow(d.High/d.Low, u)
	case Normal:
		from, to := distuv.UnitNormal.CDF((d.Low-d.Mean)/d.Deviation), distuv.UnitNormal.CDF((d.High-d.Mean)/d.Deviation)
		v = d.Mean + d.Deviation*distuv.UnitNormal.Quantile(from+u*(to-from))
	default:
		v = d.Low + u*(d.High-d.Low)
	}
	return min(max(v, d.Low), d.High)
}
