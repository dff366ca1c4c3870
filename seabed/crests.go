package seabed

import "math"

// crests is how the crests of a field of waves stray over a tile.
//
// Two trains of one wavelength that wander each its own way are added as
//
//	exp(2 pi i p1) + b exp(2 pi i p2) ,
//
// b a slow noise. Where the sum is nearly nothing, at points, a crest ends or forks: on
// a way round such a point the phase gains a whole turn. Without wander the crests are
// straight and none ends.
type crests struct {
	phase, strength field // how far they stray, turns, and how high they stand, 0..1
	re, im          field // the sum relative to the first train, so that nothing is lost of its whole turns
	first           coarse
	real, imaginary coarse
}

// lay lays those of a bedform out over the rows of nodes from one to before another,
// where it has any weight.
func (c *crests) lay(st *bedformState, weight *field, x0, y0 float64, from, to int) {
	b := &st.wave
	if b.Wander == 0 {
		for n := range c.phase {
			c.phase[n], c.strength[n] = 0, 1
		}
		return
	}
	s := 1 / (6 * max(b.Wavelength, 1))
	low, high := coarseRows(from, to)
	wander := func(dst *coarse, shift float64) {
		eachCoarse(x0, y0, low, high, func(n int, x, y float64) {
			x += shift / s
			dst[n] = st.noise.Eval2(x*s, y*s)
		})
		eachCoarse(x0, y0, low, high, func(n int, x, y float64) {
			x += shift / s
			dst[n] = b.Wander * (dst[n] + 0.5*st.noise.Eval2(2.7*x*s+9, 2.7*y*s))
		})
	}
	first, second := &c.first, &c.imaginary
	wander(first, 0)
	wander(second, 57)
	eachCoarse(x0, y0, low, high, func(n int, x, y float64) {
		share := max(0.45+0.75*st.noise.Eval2(0.8*x*s+23, 0.8*y*s-41), 0)
		sin, cos := math.Sincos(2 * math.Pi * (second[n] - first[n]))
		c.real[n], c.imaginary[n] = 1+share*cos, share*sin
	})
	c.first.nodes(&c.phase, from, to)
	c.real.nodes(&c.re, from, to)
	c.imaginary.nodes(&c.im, from, to)
	for n := from * tileSide; n < to*tileSide; n++ {
		re, im := c.re[n], c.im[n]
		c.strength[n] = 1
		if weight[n] <= 0 || im == 0 {
			continue
		}
		c.phase[n] += turnsOf(im, re)
		if high := float32(math.Sqrt(float64(re*re + im*im))); high < 1 {
			c.strength[n] = high
		}
	}
}
