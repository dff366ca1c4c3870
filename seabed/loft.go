package seabed

import "math"

// loft is a body drawn as naval architects draw hulls: outlines of its
// sections at stations along x, joined by straight lines. Its top is the
// highest of the joined outlines, so a body that lies over shows its side.
type loft struct {
	x    []float64 // stations, ascending
	n    int       // points of each outline
	y, z []float64 // n for each station
	worn *table    // how much lower it has become, metres; nil for nothing
	rect rect
}

// newLoft makes a loft of outlines, all of one length.
func newLoft(stations []float64, outlines [][]vec) *loft {
	l := &loft{x: stations, n: len(outlines[0]), rect: nowhere()}
	for i, outline := range outlines {
		for _, v := range outline {
			l.y, l.z = append(l.y, v.y), append(l.z, v.z)
			l.rect.include(stations[i], v.y)
		}
	}
	return l
}

func (l *loft) bounds() rect { return l.rect }

func (l *loft) top(x, y float64) (float64, bool) {
	last := len(l.x) - 1
	if x < l.x[0] || x > l.x[last] || y < l.rect.y0 || y > l.rect.y1 {
		return 0, false
	}
	lo, hi := 0, last
	for hi-lo > 1 {
		if mid := (lo + hi) >> 1; l.x[mid] <= x {
			lo = mid
		} else {
			hi = mid
		}
	}
	t := (x - l.x[lo]) / (l.x[hi] - l.x[lo])
	ya, za := l.y[lo*l.n:(lo+1)*l.n], l.z[lo*l.n:(lo+1)*l.n]
	yb, zb := l.y[hi*l.n:(hi+1)*l.n], l.z[hi*l.n:(hi+1)*l.n]
	best := math.Inf(-1)
	py := ya[0] + t*(yb[0]-ya[0])
	previous := 0
	for i := 1; i < len(ya); i++ {
		qy := ya[i] + t*(yb[i]-ya[i])
		if y >= py && y <= qy || y <= py && y >= qy {
			pz := za[previous] + t*(zb[previous]-za[previous])
			qz := za[i] + t*(zb[i]-za[i])
			if qy == py {
				best = max(best, pz, qz)
			} else {
				best = max(best, pz+(y-py)/(qy-py)*(qz-pz))
			}
		}
		py, previous = qy, i
	}
	if math.IsInf(best, -1) {
		return 0, false
	}
	if l.worn != nil {
		best -= l.worn.at(x, y)
	}
	return best, true
}

// extent is the range of heights of the outlines.
func (l *loft) extent() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, z := range l.z {
		low, high = min(low, z), max(high, z)
	}
	return low, high
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
