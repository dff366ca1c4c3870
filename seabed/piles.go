package seabed

import "math/rand/v2"

// buildPileRow makes what is left of a jetty: a row of timber piles in pairs,
// some rotted down, some missing, some leaning, and a fallen walingpiece.
func buildPileRow(s *shape, o *Object, rng *rand.Rand) {
	const spacing = 1.8 // metres, common practice
	radius := min(0.16, o.Width/6)
	n := max(2, int(o.Length/spacing)+1)
	for _, side := range []float64{-1, 1} {
		y := side * (o.Width/2 - 2.2*radius)
		for i := range n {
			x := (o.Length - 4*radius) * (float64(i)/float64(n-1) - 0.5)
			h := o.Height * within(rng, 0.25, 1)
			lot := rng.Float64()
			dx, dy := within(rng, -0.5, 0.5), within(rng, -1, 1)*radius
			switch {
			case lot < 0.12: // gone
			case lot < 0.3 && i > 0 && i < n-1: // leaning
				s.rod(o.Class, radius, vec{x, y, 0}, vec{x + dx*h, y + dy, h - radius}).lies = true
			default:
				s.add(disc{radius, h}, o.Class, x, y, 0, 0).lies = true
			}
		}
	}
	s.add(disc{radius, o.Height}, o.Class, 0, o.Width/2-2.2*radius, 0, 0).lies = true
	s.add(box{0.09 * o.Length, 0.12, 0.25}, o.Class, 0.2*o.Length, 0, 0, 0.06).lies = true
}
