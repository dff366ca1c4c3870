package seabed

import (
	"math"
	"math/rand/v2"
)

// buildCar makes a saloon car on its wheels: bonnet, cabin with its glass
// gone, boot; the roof crushed by a chance amount, the tyres flat.
func buildCar(s *shape, o *Object, rng *rand.Rand) {
	l, w, h := o.Length, o.Width, o.Height
	noise := noiseOf(rng)
	us := []float64{-0.5, -0.47, -0.33, -0.235, -0.19, 0.02, 0.10, 0.24, 0.44, 0.49, 0.5}
	tops := []float64{0.48, 0.64, 0.67, 0.93, 0.98, 1, 0.96, 0.68, 0.61, 0.52, 0.40}
	breadths := []float64{0.80, 0.89, 0.92, 0.92, 0.92, 0.92, 0.92, 0.92, 0.90, 0.85, 0.78} // inside the wheels
	var stations []float64
	var outlines [][]vec
	for i, u := range us {
		side, top := breadths[i]*w/2, tops[i]*h
		shoulder, roof := min(top, 0.63*h), 0.70*w/2
		half := []vec{
			{0, 0.93 * side, 0.16 * h}, {0, side, 0.38 * h}, {0, 0.97 * side, shoulder},
			{0, min(roof, 0.9*side), max(top-0.02*h, shoulder)}, {0, 0, top},
		}
		outline := append([]vec(nil), half...)
		for k := len(half) - 2; k >= 0; k-- {
			outline = append(outline, vec{0, -half[k].y, half[k].z})
		}
		stations, outlines = append(stations, u*l), append(outlines, outline)
	}
	body := newLoft(stations, outlines)
	crush := within(rng, 0, 0.14) * h
	shift := within(rng, -0.1, 0.1) * l
	body.worn = bake(body.rect, 0.06, func(x, y float64) float64 {
		u, v := (x+0.05*l-shift)/(0.16*l), y/(0.45*w)
		return crush*math.Exp(-u*u-v*v) + 0.03*max(0, noise.Eval2(2*x, 2*y))
	})
	s.add(body, o.Class, 0, 0, 0, 0)
	const tread = 0.1 // half the width of a tyre, metres
	radius := 0.21 * h
	for _, x := range []float64{-0.30, 0.31} {
		for _, hand := range []float64{-1, 1} {
			s.add(roller{tread, radius}, Rubber, x*l, hand*(w/2-tread), 0, math.Pi/2)
		}
	}
}
