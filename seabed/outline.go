package seabed

import "math"

// outline is an area as the grid around one tile meets it: what of its polygon is the same
// all over the tile, or along a row, is found out once.
type outline struct {
	area      *Area
	threshold float64
	level     bool      // no edge comes near, nor where it fades
	distance  float64   // then without end, within or without
	near      []segment // those that may be the nearest to a place
	crossings []float64 // where the row crosses the polygon
	// On the grid: how far inside, where the noise is needed, and the noise there.
	inside, noise coarse
	needed        [len(coarse{})]bool
}

type segment struct{ a, b Point }

// lay lays out the edge of an area for the tile whose south-west corner is (x0, y0).
func (o *outline) lay(a *Area, x0, y0 float64) {
	o.area, o.threshold = a, a.threshold()
	o.level, o.distance = true, math.Inf(1)
	if len(a.Polygon) < 3 {
		return
	}
	x, y := x0+tileSize/2, y0+tileSize/2
	d := signedDistance(a.Polygon, x, y)
	if math.Abs(d) > max(a.Feather, softest)/2+coarseReach {
		o.distance = math.Copysign(o.distance, d)
		return
	}
	o.level, o.near = false, o.near[:0]
	j := len(a.Polygon) - 1
	for i, p := range a.Polygon {
		if q := a.Polygon[j]; segmentDistance(x, y, p, q) < math.Abs(d)+2*coarseReach {
			o.near = append(o.near, segment{p, q})
		}
		j = i
	}
}

// row goes on to a row of places.
func (o *outline) row(y float64) {
	if o.level {
		return
	}
	o.crossings = o.crossings[:0]
	poly := o.area.Polygon
	j := len(poly) - 1
	for i, p := range poly {
		q := poly[j]
		if (p.Y > y) != (q.Y > y) {
			o.crossings = append(o.crossings, (q.X-p.X)*(y-p.Y)/(q.Y-p.Y)+p.X)
		}
		j = i
	}
}

// within gives the distance that signedDistance gives at a place of the row, or one without end
// where that does not matter.
func (o *outline) within(x, y float64) float64 {
	if o.level {
		return o.distance
	}
	best := math.Inf(1)
	for i := range o.near {
		best = min(best, segmentDistance(x, y, o.near[i].a, o.near[i].b))
	}
	inside := false
	for _, at := range o.crossings {
		if x < at {
			inside = !inside
		}
	}
	if inside {
		return best
	}
	return -best
}

// weigh fills the grid about the tile with weights of the area as [Area.weights] has them,
// the soft ones beside, and reports whether there is any of either. Where there is
// none it may leave the grids as they are.
func (o *outline) weigh(w, soft *coarse, x0, y0, feather, mixed float64, noise *areaNoise) (present, near bool) {
	if o.distance < 0 && o.level {
		return false, false
	}
	a := o.area
	fade := max(a.Feather, softest)/2 + 1e-6 // beyond it all is 0
	row := math.NaN()
	eachCoarse(x0, y0, 0, coarseSide, func(n int, x, y float64) {
		if y != row {
			o.row(y)
			row = y
		}
		o.inside[n] = o.within(x, y)
		o.needed[n] = o.inside[n] > -fade
	})
	if a.Bare > 0 && a.Bare < 1 {
		noise.onto(&o.noise, &o.needed, x0, y0, a)
	}
	at := 0
	drawn := func(_, _ float64, _ *Area) float64 { return o.noise[at] }
	for n := range w {
		at = n
		w[n], soft[n] = a.weightsWithin(o.inside[n], o.threshold, 0, 0, feather, mixed, drawn)
		present, near = present || w[n] > 0, near || soft[n] > 0
	}
	return present, near
}
