package seabed

import (
	"fmt"
	"math"

	"dryline/seabed/chance"
)

// burrows are pits or mounds of animals, so many to the square metre, at places that
// chance gives and nothing else: a Poisson process, from which the positions of such
// traces could not be told (Tuck and Atkinson 1995, who counted 0.00134 to 0.0193 on a
// square metre in the Clyde). A tile draws those that stand on it from a stream of its
// own, so that any number of them takes no memory.
type burrows struct {
	seed          uint64
	area          *Area
	density       float64
	height, width float64 // of the mean one, metres; a height below 0 is a depth
}

func newBurrows(seed uint64, name string, b *Bedform) burrows {
	s := burrows{seed: chance.Seed(seed, "seabed/strewn/"+name), area: &b.Area, density: b.Density, height: b.Height, width: b.Width}
	if b.Kind != Mounds {
		s.height = -b.Height
	}
	return s
}

// on draws what stands on the square of ground of a tile whose south-west corner it is.
func (s *burrows) on(x0, y0 float64, f func(at Point, height, width float64)) {
	rng := chance.Stream(s.seed, fmt.Sprint(int(x0), ",", int(y0)))
	// Times between the arrivals of a Poisson process are exponential.
	for sum := rng.ExpFloat64(); sum < s.density*tileSize*tileSize; sum += rng.ExpFloat64() {
		at := Point{x0 + rng.Float64()*tileSize, y0 + rng.Float64()*tileSize}
		size := math.Exp(0.25 * rng.NormFloat64())
		if s.area.Contains(at) {
			f(at, s.height*size, min(s.width*size, widestBurrow))
		}
	}
}

// widestBurrow is the greatest width of one, metres: its neighbours' tiles know it.
const widestBurrow = 10.0

// stampInto draws them into a tile, those of the tiles about it too.
func (s *burrows) stampInto(t *tile, x0, y0 float64) {
	if s.density == 0 {
		return
	}
	for _, dx := range [...]float64{-tileSize, 0, tileSize} {
		for _, dy := range [...]float64{-tileSize, 0, tileSize} {
			s.on(x0+dx, y0+dy, func(at Point, height, width float64) {
				eachNodeIn(x0, y0, at.X-width, at.Y-width, at.X+width, at.Y+width, func(n int, x, y float64) {
					u := math.Hypot(x-at.X, y-at.Y) / (width / 2)
					if u < 2 {
						// A heap or hole of the width, in a low ring of the other sense.
						t.z[n] += float32(height * (math.Exp(-2*u*u) - 0.12*math.Exp(-6*(u-1.3)*(u-1.3))))
					}
				})
			})
		}
	}
}
