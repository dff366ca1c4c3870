package seabed

import "math"

// Area is a part of the world with a soft edge, thinned out by noise if asked.
type Area struct {
	Polygon    []Point // empty: everywhere
	Feather    float64 // width of the soft edge, metres
	Bare       float64 // share of the polygon left out, 0 (none) .. 1 (all of it)
	Patchiness float64 // size of the patches when Bare thins it, metres
	Stretch    float64 // how many times as long as wide they are; 0 and 1 are round
	Along      float64 // grid bearing they are long along, radians
}

// weights returns weight with soft edges at least as wide as asked, in metres and in
// the noise; and how much holds with edges so soft that nothing steps there.
func (a *Area) weights(x, y, feather, mixed float64, noise func(x, y float64, a *Area) float64) (w, soft float64) {
	return a.weightsWithin(a.Margin(Point{x, y}), a.threshold(), x, y, feather, mixed, noise)
}

// weightsWithin is weights so many metres inside the edge.
func (a *Area) weightsWithin(d, threshold, x, y, feather, mixed float64, noise func(x, y float64, a *Area) float64) (w, soft float64) {
	const dim = 0.5
	w, soft = 1, 1
	if len(a.Polygon) > 2 {
		w = ramp(d/max(a.Feather, feather) + 0.5)
		soft = ramp(d/max(a.Feather, softest) + 0.5)
		if soft == 0 {
			return 0, 0
		}
	}
	if a.Bare >= 1 {
		return 0, 0
	}
	if a.Bare > 0 {
		over := noise(x, y, a) - threshold
		w *= ramp(over/mixed + 0.5)
		soft *= ramp(over/dim + 0.5)
	}
	return w, soft
}

// threshold is the level that the noise that thins an area out exceeds where something is left. The
// noise is near normal with a standard deviation of about 0.36, so this leaves out about
// the share asked for.
func (a *Area) threshold() float64 { return 0.36 * math.Sqrt2 * math.Erfinv(2*a.Bare-1) }

// softest is how wide the softest edges of areas at least are, metres.
const softest = 10.0

// misses reports whether nothing holds in the tile whose south-west corner is (x0, y0),
// with the softest edge.
func (a *Area) misses(x0, y0 float64) bool {
	const beyond = coarseMargin * coarseStep // the grid around a tile
	edge := beyond + max(a.Feather, softest)/2
	left, bottom, right, top := a.bounds(math.Inf(1), math.Inf(1))
	return len(a.Polygon) > 2 && (x0+tileSize < left-edge || x0 > right+edge || y0+tileSize < bottom-edge || y0 > top+edge)
}

// ramp is a smooth step from 0 at t = 0 to 1 at t = 1.
func ramp(t float64) float64 {
	t = min(max(t, 0), 1)
	return t * t * (3 - 2*t)
}

// signedDistance is the distance to the polygon's edge, positive inside.
func signedDistance(poly []Point, x, y float64) float64 {
	best := math.Inf(1)
	inside := false
	j := len(poly) - 1
	for i, p := range poly {
		q := poly[j]
		best = min(best, segmentDistance(x, y, p, q))
		if (p.Y > y) != (q.Y > y) && x < (q.X-p.X)*(y-p.Y)/(q.Y-p.Y)+p.X {
			inside = !inside
		}
		j = i
	}
	if inside {
		return best
	}
	return -best
}

// Contains reports whether p lies inside the polygon (always, if there is none).
func (a *Area) Contains(p Point) bool {
	return len(a.Polygon) < 3 || signedDistance(a.Polygon, p.X, p.Y) >= 0
}

// Margin is how far inside the edge of the polygon a point lies, metres; negative
// outside, without end if there is no polygon.
func (a *Area) Margin(p Point) float64 {
	if len(a.Polygon) < 3 {
		return math.Inf(1)
	}
	return signedDistance(a.Polygon, p.X, p.Y)
}

// PathDistance is the distance from a point to the nearest of a path, metres. One
// point is a path too; no point is without end away.
func PathDistance(path []Point, p Point) float64 {
	if len(path) == 1 {
		return math.Hypot(p.X-path[0].X, p.Y-path[0].Y)
	}
	d := math.Inf(1)
	for i := 1; i < len(path); i++ {
		d = min(d, segmentDistance(p.X, p.Y, path[i-1], path[i]))
	}
	return d
}

func segmentDistance(x, y float64, a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if n := dx*dx + dy*dy; n > 0 {
		t = min(max(((x-a.X)*dx+(y-a.Y)*dy)/n, 0), 1)
	}
	return math.Hypot(x-a.X-t*dx, y-a.Y-t*dy)
}

// bounds is the polygon's bounding box, or the whole world's.
func (a *Area) bounds(east, north float64) (x0, y0, x1, y1 float64) {
	if len(a.Polygon) < 3 {
		return 0, 0, east, north
	}
	x0, y0 = math.Inf(1), math.Inf(1)
	x1, y1 = math.Inf(-1), math.Inf(-1)
	for _, p := range a.Polygon {
		x0, x1 = min(x0, p.X), max(x1, p.X)
		y0, y1 = min(y0, p.Y), max(y1, p.Y)
	}
	return x0, y0, x1, y1
}
