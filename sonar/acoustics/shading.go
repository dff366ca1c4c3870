package acoustics

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// Shading is the weight given to the parts of an aperture, to trade width of
// the main lobe against side lobes:
//
//	w(x) = p + (1-p) cosⁿ(πx/L),  -L/2 ≤ x ≤ L/2
//
// The zero value is uniform. The aperture may be the length of an array, whose
// far field is its transform, or the band of a chirp, whose compressed pulse
// is.
type Shading struct {
	taper float64 // 1-p
	power int     // n: 0, 1 or 2
}

// HannShading returns the cosine squared, w = cos²(πx/L).
func HannShading() Shading { return Shading{taper: 1, power: 2} }

// HammingShading returns the cosine squared on a pedestal of 0.08, which
// nearly cancels the first side lobe.
func HammingShading() Shading { return Shading{taper: 0.92, power: 2} }

// CosineShading returns a half period of the cosine on a pedestal, 0 for the
// full cosine to 1 for a uniform aperture. It panics outside that range.
func CosineShading(pedestal float64) Shading {
	if !(0 <= pedestal && pedestal <= 1) {
		panic("acoustics: pedestal outside 0 to 1")
	}
	return Shading{taper: 1 - pedestal, power: 1}
}

// ShadingNamed returns a shading by name: uniform, hann, hamming or cosine.
func ShadingNamed(name string) (Shading, error) {
	switch name {
	case "uniform":
		return Shading{}, nil
	case "hann":
		return HannShading(), nil
	case "hamming":
		return HammingShading(), nil
	case "cosine":
		return CosineShading(0), nil
	}
	return Shading{}, fmt.Errorf("acoustics: unknown shading %q, want uniform, hann, hamming or cosine", name)
}

// moments returns the means of cosⁿ and of cos²ⁿ over the aperture.
func (s Shading) moments() (mean, square float64) {
	switch s.power {
	case 1:
		return 2 / math.Pi, 1.0 / 2
	case 2:
		return 1.0 / 2, 3.0 / 8
	}
	return 1, 1
}

// Transform returns the transform of the weights over their mean, at
//
//	u = π L sin(θ)/λ  for an array,  u = π B t  for a compressed pulse
//
// so that it is 1 at u = 0. For uniform weights it is sin(u)/u.
func (s Shading) Transform(u float64) float64 {
	if s.taper == 0 || s.power == 0 {
		return sinc(u)
	}
	mean, _ := s.moments()
	pedestal, taper := 1-s.taper, s.taper*mean
	return (pedestal*sinc(u) + taper*s.cosine(u)) / (pedestal + taper)
}

// cosine is the transform of cosⁿ alone.
func (s Shading) cosine(u float64) float64 {
	if s.power == 1 {
		return math.Pi / 4 * (sinc(u+math.Pi/2) + sinc(u-math.Pi/2))
	}
	return sinc(u) + 0.5*(sinc(u+math.Pi)+sinc(u-math.Pi))
}

func sinc(u float64) float64 {
	if u == 0 {
		return 1
	}
	return math.Sin(u) / u
}

// crossing returns the u at which the main lobe has fallen to an amplitude.
func (s Shading) crossing(amplitude float64) float64 {
	// Every side lobe lies below any amplitude asked for here, so the main
	// lobe is the only crossing.
	low, high := 0.0, 2*math.Pi
	for range 60 {
		middle := (low + high) / 2
		if s.Transform(middle) > amplitude {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// PeakSidelobe returns the highest side lobe in dB below the main lobe, as a
// negative number; -13.26 for uniform weights.
func (s Shading) PeakSidelobe() float64 {
	const step = 0.01
	u := step
	for s.Transform(u) > 0 {
		u += step
	}
	peak := 0.0
	for end := u + 10*math.Pi; u < end; u += step {
		before, here, after := math.Abs(s.Transform(u-step)), math.Abs(s.Transform(u)), math.Abs(s.Transform(u+step))
		if here < before || here < after {
			continue
		}
		// The top of the parabola through the three.
		bend := before - 2*here + after
		peak = math.Max(peak, here-(after-before)*(after-before)/(8*bend))
	}
	return 2 * Decibels(peak)
}

// Efficiency returns the square of the mean weight over the mean of the
// squares, 1 for uniform weights: what is kept of the directivity of an array
// or of the signal-to-noise ratio of a matched filter.
func (s Shading) Efficiency() float64 {
	if s.taper == 0 || s.power == 0 {
		return 1
	}
	mean, square := s.moments()
	p, q := 1-s.taper, s.taper
	average := p + q*mean
	return average * average / (p*p + 2*p*q*mean + q*q*square)
}

// fourthMoment returns ∫ Transform⁴ du over all u, divided by π: 2/3 for
// uniform weights.
func (s Shading) fourthMoment() float64 {
	// The tail beyond 200 falls as u⁻⁴ and adds less than 1e-7.
	const reach, points = 200, 600
	integral := quad.Fixed(func(u float64) float64 {
		b := s.Transform(u)
		return b * b * b * b
	}, 0, reach, points, nil, 1)
	return 2 * integral / math.Pi
}
