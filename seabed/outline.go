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

// within is what signedDistance gives at a place of the row, or a distance without end
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
func (o *outline) weigh(w, soft *coarse, x0, y0, feather, mixed float64, noise func(x, y float64, a *Area) float64) (present, near bool) {
	if o.distance < 0 && o.level {
		return false, false
	}
	n := 0
	for j := range coarseSide {
		y := y0 + float64(j-coarseMargin)*coarseStep
		o.row(y)
		for i := range coarseSide {
			x := x0 + float64(i-coarseMargin)*coarseStep
			w[n], soft[n] = o.area.weightsWithin(o.within(x, y), o.threshold, x, y, feather, mixed, noise)
			present, near = present || w[n] > 0, near || soft[n] > 0
			n++
		}
	}
	return present, near
}
