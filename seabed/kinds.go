package seabed

import (
	"math"
	"math/rand/v2"

	opensimplex "github.com/ojrac/opensimplex-go"
)

// Kind is a family of objects: what it is made of, how big it usually is, and
// how its shape is put together from an Object's measures.
type Kind struct {
	Class                 Class
	Length, Width, Height float64 // used where an exercise gives none, metres
	build                 func(o *Object, rng *rand.Rand) ([]part, []capsule)
}

// Kinds lists every kind of object by the name used in exercise files.
var Kinds = map[string]Kind{
	"hulk":      {Timber, 21, 6, 2.6, buildHulk},
	"boulder":   {Stone, 1.6, 1.3, 0.9, buildBoulder},
	"block":     {Concrete, 1.2, 1.2, 0.8, buildBlock},
	"container": {Steel, 6.06, 2.44, 2.59, buildBlock}, // ISO 668, type 1CC
	"pipe":      {Steel, 6, 0.5, 0.5, buildRoller},
	"cylinder":  {Steel, 2, 0.55, 0.55, buildRoller},
	"sphere":    {Steel, 0.9, 0.9, 0.9, buildSphere},
	"tyre":      {Rubber, 1.1, 1.1, 0.35, buildTyre},
	"anchor":    {Steel, 2.4, 1.6, 0.55, buildAnchor},
	"mast":      {Timber, 9, 0.3, 1.5, buildMast},
}

// fixed makes a part at (x, y, z) of its object, turned by yaw from the bow
// towards starboard.
func fixed(s solid, class Class, reach, x, y, z, yaw float64) part {
	return part{solid: s, x: x, y: y, z: z, cos: math.Cos(yaw), sin: math.Sin(yaw), class: class, reach: reach}
}

func noiseOf(rng *rand.Rand) opensimplex.Noise { return opensimplex.New(int64(rng.Uint64())) }

func buildBlock(o *Object, _ *rand.Rand) ([]part, []capsule) {
	b := box{o.Length / 2, o.Width / 2, o.Height}
	return []part{fixed(b, o.Class, o.Radius(), 0, 0, 0, 0)}, nil
}

func buildRoller(o *Object, _ *rand.Rand) ([]part, []capsule) {
	c := roller{o.Length / 2, o.Height / 2}
	return []part{fixed(c, o.Class, math.Hypot(o.Length, o.Height)/2, 0, 0, 0, 0)}, nil
}

func buildSphere(o *Object, _ *rand.Rand) ([]part, []capsule) {
	return []part{fixed(ball{o.Height / 2}, o.Class, o.Height/2, 0, 0, 0, 0)}, nil
}

func buildTyre(o *Object, _ *rand.Rand) ([]part, []capsule) {
	tube := o.Height / 2
	r := ring{o.Length/2 - tube, tube}
	return []part{fixed(r, o.Class, o.Length/2, 0, 0, 0, 0)}, nil
}

func buildBoulder(o *Object, rng *rand.Rand) ([]part, []capsule) {
	d := dome{o.Length / 2, o.Width / 2, o.Height, noiseOf(rng), 0.3}
	return []part{fixed(d, o.Class, o.Length/2+o.Width/2, 0, 0, 0, 0)}, nil
}

// buildAnchor makes a stocked anchor lying on one fluke: shank along the
// heading, arms across its foot, the stock standing across the ring end.
func buildAnchor(o *Object, _ *rand.Rand) ([]part, []capsule) {
	thick := 0.06 * o.Length
	shank := roller{o.Length / 2, thick}
	arms := roller{o.Width / 2, thick}
	fluke := box{0.12 * o.Length, 0.09 * o.Length, 2 * thick}
	parts := []part{
		fixed(shank, o.Class, o.Length/2+thick, 0, 0, 0, 0),
		fixed(arms, o.Class, o.Width/2+thick, -0.45*o.Length, 0, 0, math.Pi/2),
		fixed(fluke, o.Class, 0.2*o.Length, -0.38*o.Length, 0.42*o.Width, 0, 0.5),
		fixed(fluke, o.Class, 0.2*o.Length, -0.38*o.Length, -0.42*o.Width, 0.4*thick, -0.5),
	}
	stock := capsule{
		ax: 0.42 * o.Length, ay: -0.1 * o.Width, az: thick, bx: 0.42 * o.Length, by: 0.25 * o.Width, bz: o.Height,
		radius: 0.7 * thick, class: o.Class,
	}
	return parts, []capsule{stock}
}

// buildMast makes a spar that rests on the floor at its heel and stands
// Height above it at its head.
func buildMast(o *Object, _ *rand.Rand) ([]part, []capsule) {
	r := o.Width / 2
	spar := capsule{
		ax: -o.Length / 2, az: r, bx: o.Length / 2, bz: max(o.Height-r, r),
		radius: r, class: o.Class,
	}
	heel := roller{r, r}
	return []part{fixed(heel, o.Class, 2*r, -o.Length/2, 0, 0, 0)}, []capsule{spar}
}

// buildHulk makes a wooden vessel broken across amidships, with a boiler in
// the hold, the mast fallen over the side and planks strewn about.
func buildHulk(o *Object, rng *rand.Rand) ([]part, []capsule) {
	l, b, h := o.Length, o.Width, o.Height
	body := hull{
		halfLength: l / 2, halfWidth: b / 2, height: h, gunwale: max(0.3, 0.05*b), hold: 0.35,
		breakAt: -0.08 * l, breakWidth: 0.06 * l, noise: noiseOf(rng),
	}
	parts := []part{
		fixed(body, o.Class, math.Hypot(l, b)/2, 0, 0, 0, 0),
		fixed(roller{0.07 * l, 0.3 * h}, Steel, 0.1*l+0.3*h, -0.24*l, 0.02*b, 0.2*h, math.Pi/2),
	}
	for range 9 { // wreckage on the floor around the break
		x := -0.08*l + 0.16*l*rng.NormFloat64()
		side := 1.0
		if rng.Uint64()&1 == 0 {
			side = -1
		}
		y := side * b * (0.6 + 0.5*rng.Float64())
		length := 0.03*l + 0.08*l*rng.Float64()
		plank := box{length / 2, 0.15, 0.12 + 0.3*rng.Float64()}
		parts = append(parts, fixed(plank, o.Class, length/2+0.2, x, y, 0, math.Pi*rng.Float64()))
	}
	mast := capsule{
		ax: 0.16 * l, ay: 0.1 * b, az: 0.8 * h, bx: 0.30 * l, by: 1.25 * b, bz: 0.45,
		radius: 0.16, class: o.Class,
	}
	boom := capsule{
		ax: -0.28 * l, ay: 0, az: 0.75 * h, bx: -0.33 * l, by: 0.15 * b, bz: 1.55 * h,
		radius: 0.10, class: o.Class,
	}
	return parts, []capsule{mast, boom}
}
