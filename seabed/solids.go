package seabed

import "math"

// solid has a height field in its own frame (x along its axis, y to
// starboard, z up from its base, metres).
type solid interface {
	// top is the height of its upper side at (x, y), if it is there.
	top(x, y float64) (z float64, ok bool)
	// bounds is the smallest upright rectangle that holds its plan.
	bounds() rect
}

// rect is an upright rectangle, metres.
type rect struct{ x0, y0, x1, y1 float64 }

func around(halfLength, halfWidth float64) rect {
	return rect{-halfLength, -halfWidth, halfLength, halfWidth}
}

func (r *rect) include(x, y float64) {
	r.x0, r.x1 = min(r.x0, x), max(r.x1, x)
	r.y0, r.y1 = min(r.y0, y), max(r.y1, y)
}

// nowhere is a rect that any point widens.
func nowhere() rect {
	return rect{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
}

// box is a block with a flat top.
type box struct{ halfLength, halfWidth, height float64 }

func (b box) bounds() rect { return around(b.halfLength, b.halfWidth) }

func (b box) top(x, y float64) (float64, bool) {
	return b.height, math.Abs(x) <= b.halfLength && math.Abs(y) <= b.halfWidth
}

// roller is a cylinder lying along x, its axis one radius up.
type roller struct{ halfLength, radius float64 }

func (c roller) bounds() rect { return around(c.halfLength, c.radius) }

func (c roller) top(x, y float64) (float64, bool) {
	if math.Abs(x) > c.halfLength || math.Abs(y) > c.radius {
		return 0, false
	}
	return c.radius + math.Sqrt(c.radius*c.radius-y*y), true
}

// disc is a cylinder standing on its end.
type disc struct{ radius, height float64 }

func (d disc) bounds() rect { return around(d.radius, d.radius) }

func (d disc) top(x, y float64) (float64, bool) {
	return d.height, x*x+y*y <= d.radius*d.radius
}

// ball is a sphere resting on the base.
type ball struct{ radius float64 }

func (s ball) bounds() rect { return around(s.radius, s.radius) }

func (s ball) top(x, y float64) (float64, bool) {
	d := s.radius*s.radius - x*x - y*y
	if d < 0 {
		return 0, false
	}
	return s.radius + math.Sqrt(d), true
}

// ring is a torus lying flat.
type ring struct{ radius, tube float64 }

func (r ring) bounds() rect { return around(r.radius+r.tube, r.radius+r.tube) }

func (r ring) top(x, y float64) (float64, bool) {
	d := math.Sqrt(x*x+y*y) - r.radius
	if math.Abs(d) > r.tube {
		return 0, false
	}
	return r.tube + math.Sqrt(r.tube*r.tube-d*d), true
}
