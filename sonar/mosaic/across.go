package mosaic

import "math"

// across is how the steps of ground lie that a swath is laid in, out from the fish and alike on both
// sides: slant to ground range on a flat floor at its altitude.
type across struct {
	ground  []float64 // range to the middle of each step, metres
	slant   []float64 // range to its far edge, metres
	sample  []int     // that the edge falls in
	quality []float32
	nadir   int // the first sample of the floor
}

// lay lays out the steps of a swath, so many metres each.
func (a *across) lay(s *Swath, step float64) {
	a.ground, a.slant, a.sample, a.quality = a.ground[:0], a.slant[:0], a.sample[:0], a.quality[:0]
	h2, inverse := s.Altitude*s.Altitude, 1/s.Bin
	a.nadir = int(s.Altitude * inverse)
	for g := step / 2; g < s.Reach; g += step {
		edge := g + step/2
		slant := math.Sqrt(edge*edge + h2)
		a.ground, a.slant = append(a.ground, g), append(a.slant, slant)
		a.sample, a.quality = append(a.sample, int(slant*inverse)), append(a.quality, quality(g, s.Reach))
	}
}

// quality grades a sample by ground range: nothing at nadir, where the ground
// is stretched, best in the middle of the swath, half at its end.
func quality(g, reach float64) float32 {
	u := g / reach
	return float32(min(u/0.3, 1) * (1 - 0.5*max(0, (u-0.5)/0.5)))
}
