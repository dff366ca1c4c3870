package seabed

import (
	"math"

	opensimplex "github.com/ojrac/opensimplex-go"
)

// box is a block with a flat top.
type box struct{ halfLength, halfWidth, height float64 }

func (b box) top(x, y float64) (float64, bool) {
	return b.height, math.Abs(x) <= b.halfLength && math.Abs(y) <= b.halfWidth
}

// roller is a cylinder lying along x, its axis one radius up.
type roller struct{ halfLength, radius float64 }

func (c roller) top(x, y float64) (float64, bool) {
	if math.Abs(x) > c.halfLength || math.Abs(y) > c.radius {
		return 0, false
	}
	return c.radius + math.Sqrt(c.radius*c.radius-y*y), true
}

// dome is the upper half of an ellipsoid standing on its equator, made uneven
// by noise if it has any.
type dome struct {
	a, b, c float64 // half length, half width, height
	noise   opensimplex.Noise
	rough   float64 // share of the height
}

func (d dome) top(x, y float64) (float64, bool) {
	u := x*x/(d.a*d.a) + y*y/(d.b*d.b)
	if u > 1 {
		return 0, false
	}
	z := d.c * math.Sqrt(1-u)
	if d.noise != nil {
		s := 1.7 / (d.a + d.b)
		z *= 1 + d.rough*(d.noise.Eval2(x*2*s, y*2*s)+0.5*d.noise.Eval2(x*5*s, y*5*s))
	}
	return max(z, 0), true
}

// ball is a sphere resting on the base.
type ball struct{ radius float64 }

func (s ball) top(x, y float64) (float64, bool) {
	d := s.radius*s.radius - x*x - y*y
	if d < 0 {
		return 0, false
	}
	return s.radius + math.Sqrt(d), true
}

// ring is a torus lying flat.
type ring struct{ radius, tube float64 }

func (r ring) top(x, y float64) (float64, bool) {
	d := math.Hypot(x, y) - r.radius
	if math.Abs(d) > r.tube {
		return 0, false
	}
	return r.tube + math.Sqrt(r.tube*r.tube-d*d), true
}

// hull is an open boat on its keel: full amidships, fine at the bow, square
// at the stern, a gunwale round a hold, and a break across it if it has one.
type hull struct {
	halfLength, halfWidth, height float64
	gunwale                       float64 // thickness of the sides, metres
	hold                          float64 // floor of the hold as a share of the height
	breakAt, breakWidth           float64 // along x, metres; width 0: whole
	noise                         opensimplex.Noise
}

func (h hull) top(x, y float64) (float64, bool) {
	u := x / h.halfLength
	if math.Abs(u) > 1 {
		return 0, false
	}
	half := h.halfWidth * h.fullness(u)
	if math.Abs(y) > half {
		return 0, false
	}
	sheer := h.height * (0.82 + 0.18*u*u) // rises towards both ends
	z := sheer
	if math.Abs(y) < half-h.gunwale && math.Abs(u) < 0.93 {
		z = sheer * h.hold
		if h.noise != nil { // frames and wreckage in the hold
			z *= 1 + 0.5*h.noise.Eval2(x*1.1, y*1.9) + 0.25*h.noise.Eval2(x*3.1, y*4.3)
		}
	} else if h.noise != nil {
		z *= 1 - 0.35*max(0, h.noise.Eval2(x*0.5, 7)) // sides rotted down in places
	}
	if h.breakWidth > 0 {
		gap := math.Abs(x-h.breakAt-0.4*y) / h.breakWidth
		z *= ramp(gap - 0.1)
	}
	return max(z, 0), true
}

// fullness is the half-breadth at u in -1 (stern) .. 1 (bow), 1 amidships.
func (h hull) fullness(u float64) float64 {
	if u < 0 {
		return 1 - 0.32*u*u
	}
	return math.Sqrt(max(1-u*u*u, 0)) * (1 - 0.12*u)
}
