package seabed

import (
	"math"
	"math/rand/v2"
)

// buildAnchor makes a stocked anchor lying on its arms: shank along the
// heading with the ring towards the bow, the stock standing across that end.
func buildAnchor(s *shape, o *Object, _ *rand.Rand) {
	anchorInto(s, o.Class, vec{}, o.Length, o.Width, o.Height)
}

func anchorInto(s *shape, class Class, at vec, l, w, h float64) {
	thick := 0.035 * l
	add := func(body solid, x, y, z, yaw float64) { s.add(body, class, at.x+x, at.y+y, at.z+z, yaw) }
	ringSize := 0.06 * l
	shank := l - ringSize - thick
	add(roller{shank / 2, thick}, thick-ringSize/2, 0, 0, 0)
	add(ring{ringSize - 0.4*thick, 0.4 * thick}, l/2-ringSize, 0, 0, 0)
	// The arms are an arc through the crown, 62 deg to either side.
	const steps, half = 6, 62 * math.Pi / 180
	radius := (w/2 - 0.045*l) / math.Sin(half)
	crown := -l/2 + thick
	arc := func(a float64) (x, y float64) { return crown + radius*(1-math.Cos(a)), radius * math.Sin(a) }
	for i := range steps {
		x0, y0 := arc(half * (2*float64(i)/steps - 1))
		x1, y1 := arc(half * (2*float64(i+1)/steps - 1))
		add(roller{math.Hypot(x1-x0, y1-y0) / 2, thick}, (x0+x1)/2, (y0+y1)/2, 0, math.Atan2(y1-y0, x1-x0))
	}
	for _, side := range []float64{-1, 1} { // palms on the inside of the arms
		x, y := arc(side * 0.78 * half)
		palm := newLoft([]float64{-0.10 * l, 0.11 * l}, [][]vec{
			{{0, -0.08 * l, 2.6 * thick}, {0, 0.08 * l, 2.6 * thick}},
			{{0, -0.005 * l, 1.6 * thick}, {0, 0.005 * l, 1.6 * thick}},
		})
		add(palm, x+0.02*l, y-side*0.07*l, 0, side*(math.Pi/2-0.75*half))
	}
	// The stock crosses the shank near the ring and stands up on one side.
	x, r := at.x+l/2-2.6*ringSize, 0.7*thick
	knob := min(1.6*r, h/4)
	low, high := vec{x, at.y - 0.36*w, at.z + r}, vec{x, at.y + 0.36*w, at.z + h - knob}
	s.rod(class, min(r, knob), low, high)
	s.rod(class, knob, high, high)
}

// buildAnchorChain makes an anchor with its chain: down from the ring in a
// curve, along the floor in a lazy line, and a heap at the end.
func buildAnchorChain(s *shape, o *Object, rng *rand.Rand) {
	size := min(2.6, 0.4*o.Length)
	w := min(0.7*size, o.Width)
	front := o.Length/2 - size/2
	// The ring lies towards the chain, so the anchor is turned about.
	var a shape
	anchorInto(&a, o.Class, vec{}, size, w, o.Height)
	for _, p := range a.parts {
		p.x, p.y, p.yaw = front-p.x, -p.y, p.yaw+math.Pi
		s.parts = append(s.parts, p)
	}
	for _, r := range a.rods {
		r.a.x, r.a.y, r.b.x, r.b.y = front-r.a.x, -r.a.y, front-r.b.x, -r.b.y
		s.rods = append(s.rods, r)
	}
	const link = 0.055 // half the width of a link, metres
	swing := o.Width/2 - 2*link
	phase := 2 * math.Pi * rng.Float64()
	from, to := front-size/2, -o.Length/2+1
	lazy := func(x float64) vec {
		t := (from - x) / (from - to)
		return vec{x, swing * min(1, 3*t) * (0.65*math.Sin(5.1*t+phase) + 0.35*math.Sin(12.7*t)), 0}
	}
	touch := max(from-1.6, to)
	start := vec{from, 0, min(0.3, 0.5*o.Height)}
	end := lazy(touch)
	s.line(o.Class, link, hanging(start, vec{end.x, end.y, link}, 0.12, 5)...)
	points := []vec{}
	for x := touch; x > to; x -= 0.4 {
		points = append(points, lazy(x))
	}
	heap := lazy(to)
	heap.y = between(heap.y, -o.Width/2+1, o.Width/2-1)
	for i := range 40 { // loops on top of one another
		turn := 0.7 * float64(i)
		r := within(rng, 0.3, 0.8)
		points = append(points, vec{heap.x + r*math.Cos(turn), heap.y + r*math.Sin(turn), 0})
	}
	s.ground(o.Class, link, points)
	s.add(newStone(0.7, 0.6, min(0.3, 0.6*o.Height), noiseOf(rng), 0), o.Class, heap.x, heap.y, 0, 0).lies = true
}

// buildMooring makes a sinker with a pyramid's sides; if it is asked to stand
// higher than it is wide, a riser chain goes up to a sunk buoy, and else the
// chain lies about it.
func buildMooring(s *shape, o *Object, rng *rand.Rand) {
	w := min(o.Length, o.Width) / 2
	h := min(o.Height, 0.55*o.Width)
	sinker := func(x0, x1, top float64) []vec {
		return []vec{{0, x0, 0}, {0, 0.8 * x0, top}, {0, 0.8 * x1, top}, {0, x1, 0}}
	}
	s.add(newLoft([]float64{-o.Length / 2, -0.4 * o.Length, 0.4 * o.Length, o.Length / 2}, [][]vec{
		sinker(-o.Width/2, o.Width/2, 0.1*h), sinker(-o.Width/2, o.Width/2, 0.95*h),
		sinker(-o.Width/2, o.Width/2, 0.95*h), sinker(-o.Width/2, o.Width/2, 0.1*h),
	}), o.Class, 0, 0, 0, 0)
	eye := vec{0, 0, 0.95 * h}
	s.add(ring{0.1 * w, 0.04 * w}, Steel, 0, 0, h-0.08*w, 0)
	if o.Height <= 2*w {
		points := []vec{{w, 0, 0}}
		for i := range 9 {
			turn := 0.35 * float64(i)
			points = append(points, vec{(w + 0.15) * math.Cos(turn), (w + 0.15) * math.Sin(turn), 0})
		}
		for i, before := 1, len(s.parts); i < len(points); i++ {
			s.ground(Steel, 0.04, points[i-1:i+1])
			s.parts[before].loose = true
			before = len(s.parts)
		}
		return
	}
	buoy := min(0.42, 0.5*w)
	lean := vec{0.4 * w * within(rng, -1, 1), 0.4 * w * within(rng, -1, 1), o.Height - buoy}
	s.line(Steel, 0.035, hanging(eye, vec{lean.x, lean.y, lean.z - buoy}, 0, 6)...)
	s.rod(Steel, buoy, lean, lean)
}
