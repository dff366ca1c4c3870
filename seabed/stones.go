package seabed

import (
	"math"
	"math/rand/v2"

	opensimplex "github.com/ojrac/opensimplex-go"
)

// stone is a rounded rock: the upper half of an ellipsoid, its outline dented
// and its top lumpy.
type stone struct {
	a, b, c float64 // half length, half width, height
	dent    *table  // 0 or more: pushes the outline inwards
	lump    *table  // share of the height, at most 1
	baked
}

// table is half as fine as those that the stone is made from.
func (d *stone) table() *tops { return d.baked.of(d, (d.a+d.b)/14) }

func (d *stone) bounds() rect { return around(d.a, d.b) }

func (d *stone) top(x, y float64) (float64, bool) {
	u := x*x/(d.a*d.a) + y*y/(d.b*d.b)
	if u > 1 {
		return 0, false
	}
	u *= 1 + d.dent.at(x, y)
	if u > 1 {
		return 0, false
	}
	// Steeper sides and a flatter top than an ellipsoid's.
	return d.c * math.Sqrt(1-u*u) * d.lump.at(x, y), true
}

// newStone makes a stone of the given half length, half width and height;
// shift picks its part of the noise.
func newStone(a, b, c float64, noise opensimplex.Noise, shift float64) *stone {
	d := &stone{a: a, b: b, c: c}
	r, step := d.bounds(), (a+b)/28
	k := 2 / (a + b)
	d.dent = bake(r, step, func(x, y float64) float64 {
		return 0.6 * max(0, noise.Eval2(0.9*k*x+shift, 0.9*k*y))
	})
	highest := 0.0
	raw := func(x, y float64) float64 {
		return 1 + 0.32*noise.Eval2(0.8*k*x+shift, 0.8*k*y+50) + 0.12*noise.Eval2(2.2*k*x+shift, 2.2*k*y+90)
	}
	for y := -b; y <= b; y += step {
		for x := -a; x <= a; x += step {
			if u := x*x/(a*a) + y*y/(b*b); u < 1 {
				highest = max(highest, raw(x, y)*math.Sqrt(1-u*u))
			}
		}
	}
	// The highest node reaches the height; between nodes it is no higher than
	// the cap allows.
	d.lump = bake(r, step, func(x, y float64) float64 {
		u := min(x*x/(a*a)+y*y/(b*b), 1)
		return min(raw(x, y)/highest, 1/max(math.Sqrt(1-u*u), 0.3))
	})
	return d
}

func buildBoulder(s *shape, o *Object, rng *rand.Rand) {
	s.add(newStone(o.Length/2, o.Width/2, o.Height, noiseOf(rng), 0), o.Class, 0, 0, 0, 0)
}

// strew finds a place for the i-th thing of the given reach in an ellipse as
// long and wide as the object. The first four mark its ends, the rest lie
// thinner towards the edge.
func strew(o *Object, rng *rand.Rand, i int, reach float64) (x, y float64) {
	r, turn := math.Sqrt(rng.Float64())*within(rng, 0.55, 1), 2*math.Pi*rng.Float64()
	if i < 4 {
		r, turn = 1, math.Pi/2*float64(i)+within(rng, -0.15, 0.15)
	}
	return r * math.Cos(turn) * max(o.Length/2-reach, 0), r * math.Sin(turn) * max(o.Width/2-reach, 0)
}

// buildBoulders makes a group of boulders, few large and many small.
func buildBoulders(s *shape, o *Object, rng *rand.Rand) {
	noise := noiseOf(rng)
	largest := min(1.1*o.Height, o.Width/3, o.Length/3)
	for i := range 16 {
		size := largest * within(rng, 0.8, 1) / (1 + 0.22*float64(i))
		a, b := size*within(rng, 0.8, 1), size*within(rng, 0.6, 0.8)
		h := min(o.Height, size*within(rng, 0.75, 0.95))
		if i == 0 {
			h = o.Height
		}
		x, y := strew(o, rng, (i+12)%16, size)
		s.add(newStone(a, b, h, noise, 30*float64(i)), o.Class, x, y, 0, 2*math.Pi*rng.Float64()).lies = true
	}
}

// buildRubble makes a load of broken concrete dumped in a heap: a mound with
// slabs and lumps on and about it, and reinforcing bars sticking out.
func buildRubble(s *shape, o *Object, rng *rand.Rand) {
	noise := noiseOf(rng)
	mound := newStone(0.42*o.Length, 0.42*o.Width, 0.55*o.Height, noise, 0)
	s.add(mound, o.Class, 0, 0, 0, 0)
	on := func(x, y float64) float64 {
		z, _ := mound.top(x, y)
		return z
	}
	for i := range 70 {
		size := min(0.05*o.Length, 0.3*o.Height) * within(rng, 0.45, 1.25)
		x, y := strew(o, rng, i, 1.7*size)
		ground := on(x, y)
		h := min(size*within(rng, 0.8, 1.5), o.Height-ground+0.2*size)
		turn := 2 * math.Pi * rng.Float64()
		if i%3 == 0 { // a broken slab, tipped up
			slope := within(rng, -0.35, 0.35)
			body := box{size * 1.4, size * within(rng, 0.6, 0.9), 0}
			rise := math.Abs(slope) * body.halfLength
			p := s.add(body, o.Class, x, y, min(ground+h, o.Height)-rise, turn)
			p.tilt = slope
			continue
		}
		s.add(newStone(size, size*within(rng, 0.65, 1), h, noise, 30*float64(i+1)), o.Class, x, y, ground-0.2*size, turn)
	}
	for range 7 {
		x, y := strew(o, rng, 4, 1)
		z := on(x, y)
		tip := vec{x + within(rng, -0.9, 0.9), y + within(rng, -0.9, 0.9), min(z+within(rng, 0.4, 0.9), o.Height-0.02)}
		s.rod(Steel, 0.012, vec{x, y, z}, tip)
	}
}
