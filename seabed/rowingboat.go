package seabed

import "math/rand/v2"

// buildRowingBoat makes an open boat, a little over on one side, with her
// thwarts in, sand in her bottom and an oar beside her.
func buildRowingBoat(s *shape, o *Object, rng *rand.Rand) {
	side := either(rng)
	p := pose{heel: side * within(rng, 0.1, 0.3)}
	f := form{
		length: o.Length, offsets: skiff, turn: 0.25, side: 0.03,
		holds: []hold{{from: 0.02, to: 0.965, half: 1, floor: 0.2}},
	}
	bodies := fit(&p, o.Width, o.Height, func(beam, depth float64) []*loft {
		f.beam, f.depth = beam, depth
		bodies := []*loft{f.loft(&p, 0, 1)}
		for _, u := range []float64{0.12, 0.38, 0.62, 0.84} {
			inside := f.rail(u).y - f.side*beam
			bodies = append(bodies, slab(&p, f.x(u-0.025), f.x(u+0.025), -inside, inside, 0.48*depth, 0.54*depth))
		}
		return bodies
	})
	s.addPosed(o.Class, &p, bodies...)
	s.add(roller{0.28 * o.Length, 0.03}, o.Class, -0.05*o.Length, side*0.75*o.Width, 0, 0.2*side).loose = true
	blade := s.add(box{0.06 * o.Length, 0.08, 0.05}, o.Class, 0.27*o.Length, side*0.75*o.Width+0.065*side*o.Length, 0, 0.2*side)
	blade.loose = true
}
