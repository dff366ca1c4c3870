package seabed

import (
	"math"
	"math/rand/v2"
)

func buildBlock(s *shape, o *Object, _ *rand.Rand) {
	s.add(box{o.Length / 2, o.Width / 2, o.Height}, o.Class, 0, 0, 0, 0)
}

func buildRoller(s *shape, o *Object, _ *rand.Rand) {
	s.add(roller{o.Length / 2, o.Height / 2}, o.Class, 0, 0, 0, 0)
}

func buildSphere(s *shape, o *Object, _ *rand.Rand) {
	s.add(ball{o.Height / 2}, o.Class, 0, 0, 0, 0)
}

func buildTyre(s *shape, o *Object, _ *rand.Rand) {
	tube := o.Height / 2
	s.add(ring{o.Length/2 - tube, tube}, o.Class, 0, 0, 0, 0)
}

// buildContainer makes a box with its frame standing proud of the roof, a roof
// of corrugated sheet and a door end with its bars.
func buildContainer(s *shape, o *Object, _ *rand.Rand) {
	l, b, h := o.Length/2, o.Width/2, o.Height
	rail := 0.04 * o.Width
	roof := corrugated{box{l, b, h - 0.3*rail}, 0.25 * rail}
	s.add(roof, o.Class, 0, 0, 0, 0)
	for _, side := range []float64{-1, 1} {
		s.add(box{l, rail / 2, h}, o.Class, 0, side*(b-rail/2), 0, 0)
		s.add(box{rail, b, h}, o.Class, side*(l-rail), 0, 0, 0)
	}
}

// corrugated is a box whose roof is pressed into waves across it.
type corrugated struct {
	box
	depth float64
}

func (c corrugated) top(x, y float64) (float64, bool) {
	h, ok := c.box.top(x, y)
	const perMetre = 2 * math.Pi / 0.28
	return h - c.depth*(0.5+0.5*math.Sin(x*perMetre)), ok
}

// buildMast makes a spar that rests on the floor at its heel and stands
// Height above it at its head.
func buildMast(s *shape, o *Object, _ *rand.Rand) {
	r := o.Width / 2
	l := o.Length/2 - r
	s.rod(o.Class, r, vec{-l, 0, r}, vec{l, 0, max(o.Height-r, r)})
	s.add(ball{r}, o.Class, -l, 0, 0, 0)
}
