package seabed

import (
	"maps"
	"math"
	"slices"
	"testing"
)

// sampled holds the findings of brute force about a shape on a flat floor at z = 0: the
// box of its body, of its loose parts, and its highest point.
type sampled struct {
	body, loose rect
	highest     float64
}

// sampleShape looks at every part on a grid and every rod by its ends.
func sampleShape(s *shape) sampled {
	found := sampled{body: nowhere(), loose: nowhere()}
	for _, p := range s.parts {
		sin, cos := math.Sincos(p.yaw)
		r := p.solid.bounds()
		to := &found.body
		if p.loose {
			to = &found.loose
		}
		step := max(r.x1-r.x0, r.y1-r.y0) / 160
		for y := r.y0; y <= r.y1+step/2; y += step {
			for x := r.x0; x <= r.x1+step/2; x += step {
				z, ok := p.top(x, y)
				if z += p.z + p.tilt*x; ok && z > 0 { // what is under the floor does not show
					to.include(p.x+x*cos-y*sin, p.y+x*sin+y*cos)
					found.highest = max(found.highest, z)
				}
			}
		}
	}
	for _, r := range s.rods {
		to := &found.body
		if r.loose {
			to = &found.loose
		}
		for _, v := range []vec{r.a, r.b} {
			// A rod across the box may reach one radius beyond its end, a rod along
			// it less; the radius of spars is allowed for in the test.
			to.include(v.x, v.y)
			found.highest = max(found.highest, v.z+r.radius)
		}
	}
	return found
}

// sizes to try a kind at, as shares of its own length, width and height.
var sizes = [][3]float64{{1, 1, 1}, {1.3, 1.3, 1.3}, {0.75, 0.75, 0.75}, {1.2, 0.9, 1}, {1, 1, 0.8}}

// sortedKinds are the names of all kinds.
func sortedKinds() []string { return slices.Sorted(maps.Keys(Kinds)) }

// round kinds must keep the same measure across and up.
var round = map[string]bool{"sphere": true, "pipe": true, "cylinder": true, "tyre": true, "mast": true}

func eachShape(t *testing.T, f func(t *testing.T, o Object, s shape)) {
	for name, kind := range Kinds {
		for i, size := range sizes {
			if i > 2 && round[name] {
				continue
			}
			for seed := range uint64(6) {
				o := Object{
					Name: name, Kind: name, Class: kind.Class,
					Length: size[0] * kind.Length, Width: size[1] * kind.Width, Height: size[2] * kind.Height,
				}
				f(t, o, o.build(seed))
			}
		}
	}
}

func TestEveryKindStandsWithinItsMeasures(t *testing.T) {
	eachShape(t, func(t *testing.T, o Object, s shape) {
		const tol = 0.02 // metres
		got := sampleShape(&s)
		if got.highest > o.Height+tol || got.highest < 0.85*o.Height {
			t.Errorf("%s %.2f m high: stands %.3f m high", o.Kind, o.Height, got.highest)
		}
		l, w := o.Length/2+tol, o.Width/2+tol
		if b := got.body; b.x0 < -l || b.x1 > l || b.y0 < -w || b.y1 > w {
			t.Errorf("%s %.2f x %.2f m: its body takes %.2f..%.2f by %.2f..%.2f m", o.Kind, o.Length, o.Width, b.x0, b.x1, b.y0, b.y1)
		}
		if b := got.body; b.x1-b.x0 < 0.8*o.Length || b.y1-b.y0 < 0.6*o.Width {
			t.Errorf("%s %.2f x %.2f m: its body is only %.2f by %.2f m", o.Kind, o.Length, o.Width, b.x1-b.x0, b.y1-b.y0)
		}
		if b := got.loose; b.x0 < -l-o.Width || b.x1 > l+o.Width || b.y0 < -w-o.Width || b.y1 > w+o.Width {
			t.Errorf("%s %.2f x %.2f m: loose parts take %.2f..%.2f by %.2f..%.2f m", o.Kind, o.Length, o.Width, b.x0, b.x1, b.y0, b.y1)
		}
	})
}

// A part is looked for only within its bounds: none of it may stand outside.
func TestNothingStandsOutsideItsBounds(t *testing.T) {
	eachShape(t, func(t *testing.T, o Object, s shape) {
		for k, p := range s.parts {
			r := p.solid.bounds()
			dx, dy := r.x1-r.x0, r.y1-r.y0
			for i := range 60 {
				for j := range 60 {
					x := r.x0 - 0.25*dx + 1.5*dx*float64(i)/59
					y := r.y0 - 0.25*dy + 1.5*dy*float64(j)/59
					inside := x >= r.x0 && x <= r.x1 && y >= r.y0 && y <= r.y1
					if _, ok := p.top(x, y); ok && !inside {
						t.Fatalf("%s part %d: stands at (%.3f, %.3f), outside %+v", o.Kind, k, x, y, r)
					}
				}
			}
		}
	})
}

func TestShapesFollowTheirSeed(t *testing.T) {
	varied := map[string]bool{}
	for name, kind := range Kinds {
		o := Object{Name: "x", Kind: name, Class: kind.Class, Length: kind.Length, Width: kind.Width, Height: kind.Height}
		a, b, other := o.build(5), o.build(5), o.build(6)
		for _, p := range a.parts {
			r := p.solid.bounds()
			for i := range 40 {
				x := r.x0 + (r.x1-r.x0)*(float64(i)+0.5)/40
				y := r.y0 + (r.y1-r.y0)*math.Mod(0.37*float64(i)+0.5, 1)
				h, _ := heightOf(&a, p, x, y)
				if g, _ := heightOf(&b, p, x, y); g != h {
					t.Fatalf("%s: %g m high once, %g m again, from one seed", name, h, g)
				}
				if g, _ := heightOf(&other, p, x, y); g != h {
					varied[name] = true
				}
			}
		}
	}
	for _, name := range []string{"hulk", "fishing_boat", "steel_wreck", "rowing_boat", "car", "boulder", "boulders", "rubble", "drum_field", "pile_row", "pot_string", "anchor_chain"} {
		if !varied[name] {
			t.Errorf("%s: two seeds made one shape", name)
		}
	}
}

// heightOf is the height of the shape where the part p has its point (x, y).
func heightOf(s *shape, p part, x, y float64) (float64, bool) {
	sin, cos := math.Sincos(p.yaw)
	gx, gy := p.x+x*cos-y*sin, p.y+x*sin+y*cos
	best, found := math.Inf(-1), false
	for _, q := range s.parts {
		sin, cos := math.Sincos(q.yaw)
		dx, dy := gx-q.x, gy-q.y
		qx, qy := dx*cos+dy*sin, dy*cos-dx*sin
		if z, ok := q.top(qx, qy); ok {
			best, found = max(best, q.z+q.tilt*qx+z), true
		}
	}
	return best, found
}
