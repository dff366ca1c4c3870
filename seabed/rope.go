package seabed

import "math"

// hanging gives n+1 points of a heavy line hung between two points, sag metres
// below the straight line at its middle: a parabola, which a catenary is to
// within a tenth of the sag while the sag is under a third of the span.
// Negative sag is a line that floats up.
func hanging(a, b vec, sag float64, n int) []vec {
	points := make([]vec, n+1)
	for i := range points {
		t := float64(i) / float64(n)
		points[i] = a.towards(b, t)
		points[i].z -= 4 * sag * t * (1 - t)
	}
	return points
}

// ground lays a line on the floor through the points, as cylinders half sunk.
func (s *shape) ground(class Class, radius float64, points []vec) {
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		dx, dy := b.x-a.x, b.y-a.y
		m := a.towards(b, 0.5)
		body := roller{math.Hypot(dx, dy)/2 + radius/2, radius}
		s.add(body, class, m.x, m.y, -0.4*radius, math.Atan2(dy, dx)).lies = true
	}
}
