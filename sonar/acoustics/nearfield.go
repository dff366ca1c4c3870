package acoustics

import (
	"math"
	"slices"
)

// The field of a line array at a slant range R and a sine u = sin(theta) off
// broadside is the integral over its length of waves that have come different
// ways, to second order of the ways
//
//	p = 1/L int w(x) exp(i pi (q (x/L)^2 - 2 v x/L)) dx
//	q = L^2/lambda (1/R - 1/F) ,  v = L u/lambda
//
// (Fresnel's approximation; Goodman, Introduction to Fourier Optics, chapter 4),
// over that which the far field would have on the axis at the same range. F is
// the range the array is focused at. With q = 0, far away or in focus, it is
// [LineArray.Amplitude]; near the array it tends to a strip as wide as the array
// is long, level and rippled. The third order, k L^3 u/(16 R^2), is left out:
// less than a tenth of a radian within the main lobe beyond four lengths of the
// array.
//
// A focus in metres is 0 for an array without one and negative for one that is
// in focus at every range.

// Defocus returns q: the number of half wavelengths, over four, by which the
// ends of the array are out of step with its middle.
func (a LineArray) Defocus(rangeM, wavelength, focusM float64) float64 {
	curvature := 1 / rangeM
	switch {
	case focusM < 0:
		return 0
	case focusM > 0:
		curvature -= 1 / focusM
	}
	return a.Length * a.Length / wavelength * curvature
}

// AlongTrackPower returns the one-way power offsetM along the track from the
// middle of the array at a slant range, over that on the axis of the far field.
func (a LineArray) AlongTrackPower(offsetM, rangeM, wavelength, focusM float64) float64 {
	var p [1]float64
	v := a.Length * offsetM / (rangeM * wavelength)
	a.Shading.field(p[:], a.Defocus(rangeM, wavelength, focusM), v, 0)
	return p[0]
}

// AlongTrackPattern fills dst with the two-way power at offsets of 0, step,
// 2 step ... metres along the track at a slant range, over that on the axis of
// the far field.
func (a LineArray) AlongTrackPattern(dst []float64, step, rangeM, wavelength, focusM float64) {
	a.Shading.field(dst, a.Defocus(rangeM, wavelength, focusM), 0, a.Length*step/(rangeM*wavelength))
	for i, p := range dst {
		dst[i] = p * p
	}
}

// AlongTrackWidth returns the width in metres of the one-way beam at a slant range,
// between the outermost points with half the power of its strongest. In focus it
// is R times [LineArray.HalfPowerWidth], to about half a wavelength; out of focus
// it comes near that from some half of [LineArray.NearFieldRange] on, and is about
// the length of the array close by. Within one length of the array it is that.
func (a LineArray) AlongTrackWidth(rangeM, wavelength float64, focused bool) float64 {
	if focused {
		return math.Max(Footprint(rangeM, a.HalfPowerWidth(wavelength)), wavelength/2)
	}
	if rangeM < a.Length {
		return a.Length
	}
	const steps = 2000
	var p [steps]float64
	step := (0.7*a.Length + 2.5*rangeM*wavelength/a.Length) / steps
	a.AlongTrackPattern(p[:], step, rangeM, wavelength, 0)
	half := slices.Max(p[:]) / 4 // of two ways
	i := steps - 1
	for i > 0 && p[i-1] < half {
		i--
	}
	between := (p[i-1] - half) / (p[i-1] - p[i])
	return 2 * (float64(i-1) + between) * step
}

// AlongTrackLoss returns by how much the echo of a level floor at a slant range
// lies below the far-field sonar equation, in dB, at least 0: near an array that
// is not focused the beam is wider than R times its equivalent width and weaker
// by more.
func (a LineArray) AlongTrackLoss(rangeM, wavelength, focusM float64) float64 {
	q := a.Defocus(rangeM, wavelength, focusM)
	if q == 0 {
		return 0
	}
	return -Decibels(a.Shading.coherence(q).overlap(0) / a.Shading.coherence(0).overlap(0))
}

// AlongTrackOverlaps fills dst with the share of the echo of a level floor that
// is left when the array hears it turned by 0, step, 2 step ... radians against
// how it sent, or as far along as makes that angle: int P(u) P(u+turn) du over
// int P(u)^2 du.
func (a LineArray) AlongTrackOverlaps(dst []float64, step, rangeM, wavelength, focusM float64) {
	c := a.Shading.coherence(a.Defocus(rangeM, wavelength, focusM))
	whole := c.overlap(0)
	for i := range dst {
		dst[i] = c.overlap(float64(i)*step*a.Length/wavelength) / whole
	}
}

// weight is the shading at s of the aperture's length from its middle, over its
// mean.
func (s Shading) weight(x float64) float64 {
	if s.taper == 0 || s.power == 0 {
		return 1
	}
	mean, _ := s.moments()
	w := math.Cos(math.Pi * x)
	if s.power == 2 {
		w *= w
	}
	return (1 - s.taper + s.taper*w) / (1 - s.taper + s.taper*mean)
}

// field fills dst with |p|^2 at v, v+step, v+2 step ... by Simpson's rule over
// half of the aperture, with at least twelve points to every turn of the phase.
func (s Shading) field(dst []float64, q, v, step float64) {
	turns := (math.Abs(q)/2 + math.Abs(v) + step*float64(len(dst))) / 2
	n := 2 * int(16+6*turns)
	h := 0.5 / float64(n)
	re, im := make([]float64, len(dst)), make([]float64, len(dst))
	for j := range n + 1 {
		x := h * float64(j)
		w := 2 * s.weight(x) * h / 3
		switch {
		case j == 0 || j == n:
		case j%2 == 1:
			w *= 4
		default:
			w *= 2
		}
		sin, cos := math.Sincos(math.Pi * q * x * x)
		// cos(2 pi v x) for every v, by the sum of two that follow each other.
		now, before := math.Cos(2*math.Pi*v*x), math.Cos(2*math.Pi*(v-step)*x)
		twice := 2 * math.Cos(2*math.Pi*step*x)
		for i := range dst {
			re[i] += w * cos * now
			im[i] += w * sin * now
			now, before = twice*now-before, now
		}
	}
	for i := range dst {
		dst[i] = re[i]*re[i] + im[i]*im[i]
	}
}

// coherence is the square of the autocorrelation A(t) of the aperture's field,
// at even shifts from none to its whole length:
//
//	A(t) = int w(s+t/2) w(s-t/2) cos(2 pi q t s) ds
//
// whose transform is the power pattern, so that by Parseval's theorem
//
//	int P(v) P(v+d) dv = int A(t)^2 cos(2 pi d t) dt .
//
// For uniform weights A(t) = (1-t) sinc(pi q t (1-t)).
type coherence []float64

func (s Shading) coherence(q float64) coherence {
	n := 2 * int(24+2*math.Abs(q))
	c := make(coherence, n+1)
	for i := range c {
		t := float64(i) / float64(n)
		a := s.autocorrelation(t, q)
		c[i] = a * a
	}
	return c
}

func (s Shading) autocorrelation(t, q float64) float64 {
	if s.taper == 0 || s.power == 0 {
		return (1 - t) * sinc(math.Pi*q*t*(1-t))
	}
	half := (1 - t) / 2
	n := 2 * int(8+3*math.Abs(q)*t*half)
	h, sum := half/float64(n), 0.0
	for j := range n + 1 {
		x := h * float64(j)
		w := 1.0
		switch {
		case j == 0 || j == n:
		case j%2 == 1:
			w = 4
		default:
			w = 2
		}
		sum += w * s.weight(x+t/2) * s.weight(x-t/2) * math.Cos(2*math.Pi*q*t*x)
	}
	return 2 * sum * h / 3
}

// overlap is int P(v) P(v+d) dv, by Simpson's rule.
func (c coherence) overlap(d float64) float64 {
	n := len(c) - 1
	sum := c[0] + c[n]*math.Cos(2*math.Pi*d)
	for i := 1; i < n; i++ {
		sum += float64(2+2*(i%2)) * c[i] * math.Cos(2*math.Pi*d*float64(i)/float64(n))
	}
	return 2 * sum / (3 * float64(n))
}
