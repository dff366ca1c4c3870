package seabed

import "math"

// loft is a body drawn as naval architects draw hulls: outlines of its
// sections at stations along x, joined by straight lines. Its top is the
// highest of the joined outlines, so a body that lies over shows its side.
type loft struct {
	x         []float64 // stations, ascending
	n         int       // points of each outline
	y, z      []float64 // n for each station
	worn      *table    // how much lower it has become, metres; nil for nothing
	rect      rect
	low, high float64 // of the outlines
	baked

	perMetre float64 // cells of begins
	begins   []int32 // station at or before the start of each cell along x

	// The reach across of each line of the outlines between two stations, and a hair more: a point beyond it
	// need not be looked for there.
	reach []reach
}

type reach struct{ from, to float64 }

// newLoft makes a loft of outlines, all of one length.
func newLoft(stations []float64, outlines [][]vec) *loft {
	l := &loft{x: stations, rect: nowhere(), low: math.Inf(1), high: math.Inf(-1)}
	for i, outline := range outlines {
		for _, v := range outline {
			l.rect.include(stations[i], v.y)
			l.low, l.high = min(l.low, v.z), max(l.high, v.z)
		}
	}
	for _, outline := range seenFromAbove(outlines) {
		l.n = len(outline)
		for _, v := range outline {
			l.y, l.z = append(l.y, v.y), append(l.z, v.z)
		}
	}
	last := len(stations) - 1
	cells := 4 * len(stations)
	l.perMetre = float64(cells) / (stations[last] - stations[0])
	k := int32(0)
	for i := range cells + 1 {
		for int(k) < last-1 && stations[k+1] <= stations[0]+float64(i)/l.perMetre {
			k++
		}
		l.begins = append(l.begins, k)
	}
	for lo := range last {
		const hair = 1e-9 // metres, more than a place between stations is rounded by
		a, b := l.y[lo*l.n:(lo+1)*l.n], l.y[(lo+1)*l.n:(lo+2)*l.n]
		for i := 1; i < l.n; i++ {
			l.reach = append(l.reach, reach{min(a[i-1], a[i], b[i-1], b[i]) - hair, max(a[i-1], a[i], b[i-1], b[i]) + hair})
		}
	}
	return l
}

// seenFromAbove leaves out the stretch of the outlines that lies under the
// rest at every station: the bottom of a hull.
func seenFromAbove(outlines [][]vec) [][]vec {
	n := len(outlines[0])
	hidden := make([]bool, n-1) // of the line from each point to the next
	for k := range hidden {
		hidden[k] = true
		for i := 0; i < len(outlines) && hidden[k]; i++ {
			hidden[k] = under(outlines[i], k) && (i == 0 || under(midway(outlines[i-1], outlines[i]), k))
		}
	}
	first, last := 0, n-1
	closed := true
	for _, o := range outlines {
		closed = closed && o[0].y == o[n-1].y && o[0].z == o[n-1].z
	}
	if closed { // start after the longest hidden stretch, wherever that is
		longest, run := 0, 0
		for k := range 2 * (n - 1) {
			if run++; !hidden[k%(n-1)] {
				run = 0
			}
			if run = min(run, n-2); run > longest {
				longest, first = run, (k+1)%(n-1)
			}
		}
		last = first + n - 1 - longest
	} else {
		for first < last-1 && hidden[first] {
			first++
		}
		for last > first+1 && hidden[last-1] {
			last--
		}
	}
	out := make([][]vec, len(outlines))
	for i, o := range outlines {
		for k := first; k <= last; k++ {
			if closed {
				out[i] = append(out[i], o[k%(n-1)])
			} else {
				out[i] = append(out[i], o[k])
			}
		}
	}
	return out
}

// under reports whether the line from point k of the outline to the next lies
// under the rest of it all along.
func under(outline []vec, k int) bool {
	a, b := outline[k], outline[k+1]
	if a.y == b.y {
		return true // its ends belong to its neighbours as well
	}
	const looks, tol = 8, 1e-9
	for i := range looks + 1 {
		v := a.towards(b, float64(i)/looks)
		covered := false
		for j := range len(outline) - 1 {
			p, q := outline[j], outline[j+1]
			if j == k || p.y == q.y || v.y < min(p.y, q.y) || v.y > max(p.y, q.y) {
				continue
			}
			covered = covered || p.z+(v.y-p.y)/(q.y-p.y)*(q.z-p.z) > v.z+tol
		}
		if !covered && i > 0 && i < looks {
			return false
		}
	}
	return true
}

// midway is the outline halfway between two stations.
func midway(a, b []vec) []vec {
	out := make([]vec, len(a))
	for i := range a {
		out[i] = a[i].towards(b[i], 0.5)
	}
	return out
}

func (l *loft) bounds() rect { return l.rect }

func (l *loft) top(x, y float64) (float64, bool) {
	last := len(l.x) - 1
	if x < l.x[0] || x > l.x[last] || y < l.rect.y0 || y > l.rect.y1 {
		return 0, false
	}
	lo := int(l.begins[int((x-l.x[0])*l.perMetre)])
	for lo < last-1 && l.x[lo+1] <= x {
		lo++
	}
	hi := lo + 1
	t := (x - l.x[lo]) / (l.x[hi] - l.x[lo])
	ya, za := l.y[lo*l.n:(lo+1)*l.n], l.z[lo*l.n:(lo+1)*l.n]
	yb, zb := l.y[hi*l.n:(hi+1)*l.n], l.z[hi*l.n:(hi+1)*l.n]
	best := math.Inf(-1)
	for k, r := range l.reach[lo*(l.n-1) : hi*(l.n-1)] {
		if y < r.from || y > r.to {
			continue
		}
		i := k + 1
		py, qy := ya[k]+t*(yb[k]-ya[k]), ya[i]+t*(yb[i]-ya[i])
		if y >= py && y <= qy || y <= py && y >= qy {
			pz := za[k] + t*(zb[k]-za[k])
			qz := za[i] + t*(zb[i]-za[i])
			if qy == py {
				best = max(best, pz, qz)
			} else {
				best = max(best, pz+(y-py)/(qy-py)*(qz-pz))
			}
		}
	}
	if math.IsInf(best, -1) {
		return 0, false
	}
	if l.worn != nil {
		best -= l.worn.at(x, y)
	}
	return best, true
}

// lean heels and trims the outlines.
func lean(p *pose, x float64, outline []vec) []vec {
	out := make([]vec, len(outline))
	for i, v := range outline {
		v.x = x
		out[i] = p.leaned(v)
	}
	return out
}

// slab is a plank or house with square corners, leaned with the body it is
// part of.
func slab(p *pose, x0, x1, y0, y1, z0, z1 float64) *loft {
	outline := []vec{{0, y0, z0}, {0, y1, z0}, {0, y1, z1}, {0, y0, z1}, {0, y0, z0}}
	return newLoft([]float64{x0, x1}, [][]vec{lean(p, x0, outline), lean(p, x1, outline)})
}
