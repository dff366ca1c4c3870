package seabed

import (
	"math"
	"math/rand/v2"
)

// buildHulk makes a wooden vessel upright on her keel and broken across
// amidships, her deck gone, a boiler in the hold, the mast fallen over the side
// and planks strewn about.
func buildHulk(s *shape, o *Object, rng *rand.Rand) {
	l, b, h := o.Length, o.Width, o.Height
	noise := noiseOf(rng)
	const aft, forward = 0.035, 0.955 // ends of the open hull, u
	f := form{
		length: l, beam: b, depth: h, offsets: smack, turn: 0.3, side: 0.05,
		holds: []hold{{from: aft, to: forward, half: 1, floor: 0.02}},
	}
	p := pose{}
	// Across the break everything is down, from standing to nothing.
	standing := func(x, y float64) float64 {
		return ramp(math.Abs(x+0.08*l-0.4*y)/(0.06*l) - 0.1)
	}
	sides := f.loft(&p, 0, 1)
	sides.worn = bake(sides.rect, 0.1, func(x, y float64) float64 {
		rail := f.rail(x/l + 0.5).z // rotted down in places
		left := rail * (1 - 0.35*max(0, noise.Eval2(x*0.5, 7*math.Copysign(1, y))))
		return rail - left*standing(x, y)
	})
	// Frames, planks and silt lie between the sides.
	var stations []float64
	var outlines [][]vec
	for u := aft; u <= forward; u += 0.02 {
		rail := f.rail(u)
		inside := max(rail.y-f.side*b, 0.6*rail.y)
		stations = append(stations, f.x(u))
		outlines = append(outlines, []vec{{0, -inside, 0.6 * h}, {0, inside, 0.6 * h}})
	}
	fill := newLoft(stations, outlines)
	fill.worn = bake(fill.rect, 0.06, func(x, y float64) float64 {
		wreck := 0.5*noise.Eval2(x*1.1, y*1.9) + 0.25*noise.Eval2(x*3.1, y*4.3)
		return 0.6 * h * (1 - standing(x, y)*between(0.55+0.55*wreck, 0.1, 1))
	})
	s.addPosed(o.Class, &p, sides, fill)
	s.add(roller{0.07 * l, 0.3 * h}, Steel, -0.24*l, 0.02*b, 0.2*h, math.Pi/2)
	for range 9 { // wreckage on the floor around the break
		x := between(-0.08*l+0.16*l*rng.NormFloat64(), -l/2, l/2)
		y := either(rng) * b * within(rng, 0.6, 1.1)
		length := 0.03*l + 0.08*l*rng.Float64()
		plank := box{length / 2, 0.15, min(within(rng, 0.12, 0.42), h)}
		q := s.add(plank, o.Class, x, y, 0, math.Pi*rng.Float64())
		q.loose, q.lies = true, true
	}
	s.rod(o.Class, 0.16, vec{0.16 * l, 0.1 * b, 0.8 * h}, vec{0.30 * l, 1.25 * b, min(0.45, h-0.16)}).loose = true
	s.rod(o.Class, 0.10, vec{-0.28 * l, 0, 0.5 * h}, vec{-0.33 * l, 0.15 * b, h - 0.1})
}
