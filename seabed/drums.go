package seabed

import (
	"math"
	"math/rand/v2"
)

// buildDrumField strews 200-litre drums, as long as the object is high: most
// lying, some sunk in, some standing, one or two burst open.
func buildDrumField(s *shape, o *Object, rng *rand.Rand) {
	long, radius := o.Height, 0.33*o.Height
	for i := range 15 {
		x, y := strew(o, rng, i, 0.6*long)
		turn := 2 * math.Pi * rng.Float64()
		if i%5 == 4 {
			s.add(disc{radius, o.Height * within(rng, 0.85, 1)}, o.Class, x, y, 0, turn).lies = true
			continue
		}
		sunk := -2 * radius * 0.6 * rng.Float64() * rng.Float64()
		p := s.add(roller{long / 2, radius}, o.Class, x, y, sunk, turn)
		p.tilt, p.lies = within(rng, -0.08, 0.05), true
		p.z -= math.Abs(p.tilt) * long / 2
		// The hoops that stiffen it.
		for _, at := range []float64{-0.17, 0.17} {
			hoop := s.add(roller{0.03 * long, 1.04 * radius}, o.Class,
				x+at*long*math.Cos(turn), y+at*long*math.Sin(turn), p.z+p.tilt*at*long-0.04*radius, turn)
			hoop.lies = true
		}
	}
}
