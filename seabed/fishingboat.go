package seabed

import (
	"math"
	"math/rand/v2"
)

// buildFishingBoat makes a wooden fishing boat lying over on one bilge, her
// wheelhouse aft and fish hatch forward of it, the mast fallen over the low
// side and the derrick pointing up.
func buildFishingBoat(s *shape, o *Object, rng *rand.Rand) {
	noise := noiseOf(rng)
	side := either(rng)
	// A hull that is h high over a width w cannot lean further than this.
	most := math.Atan(0.85 * o.Height / o.Width)
	p := pose{heel: side * min(within(rng, 0.5, 0.75), most), trim: within(rng, -0.02, 0.02)}
	f := form{
		length: o.Length, offsets: smack, turn: 0.32, bulwark: 0.2, coaming: 0.08, side: 0.035,
		holds: []hold{{from: 0.46, to: 0.60, half: 0.34, floor: 0.3}},
	}
	deck := 0.0
	bodies := fit(&p, o.Width, o.Height, func(beam, depth float64) []*loft {
		f.beam, f.depth = beam, depth
		deck = f.deckAt(0.25)
		house := deck + 0.55*depth
		return []*loft{
			f.loft(&p, 0, 1),
			slab(&p, f.x(0.16), f.x(0.34), -0.27*beam, 0.27*beam, deck, house),
			slab(&p, f.x(0.15), f.x(0.36), -0.30*beam, 0.30*beam, house, house+0.03*depth),
			slab(&p, f.x(0.62), f.x(0.66), -0.22*beam, 0.22*beam, f.deckAt(0.64), f.deckAt(0.64)+0.18*depth), // winch
		}
	})
	bodies[0].worn = bake(bodies[0].rect, 0.1, func(x, y float64) float64 {
		// Seams opened and planks gone here and there.
		return 0.12*max(0, noise.Eval2(0.7*x, 1.9*y)) + 0.5*max(0, noise.Eval2(0.35*x, 0.8*y+40)-0.45)
	})
	s.addPosed(o.Class, &p, bodies...)
	spar := func(radius float64, a, b vec) *rod {
		a.z, b.z = between(a.z, radius, o.Height-radius), between(b.z, radius, o.Height-radius)
		return s.rod(o.Class, radius, a, b)
	}
	// The mast broke at the deck and lies across the low rail out on the floor.
	heel := p.apply(vec{f.x(0.68), 0, f.deckAt(0.68) + 0.1})
	fall := min(0.55*o.Length, 1.1*o.Width)
	spar(0.13, heel, vec{heel.x + 0.35*fall, heel.y + side*0.9*fall, 0.2}).loose = true
	// The derrick still stands from the foot of the mast, over the high side.
	foot := p.apply(vec{f.x(0.66), 0, f.deckAt(0.66) + 0.2})
	spar(0.09, foot, vec{foot.x - 0.22*o.Length, -side * 0.32 * o.Width, o.Height - 0.09})
	// A gallows at the stern for the trawl wires.
	a, b := f.rail(0.06), f.rail(0.06)
	a.y, b.y = 0.8*a.y, -0.8*b.y
	up := vec{0, 0, 0.4 * f.depth}
	port, starboard := p.apply(b), p.apply(a)
	topPort, topStarboard := p.apply(b.plus(up)), p.apply(a.plus(up))
	for _, v := range [][2]vec{{port, topPort}, {starboard, topStarboard}, {topPort, topStarboard}} {
		spar(0.06, clampInto(v[0], o), clampInto(v[1], o))
	}
}

// clampInto keeps a spar's end inside the object's plan.
func clampInto(v vec, o *Object) vec {
	const margin = 0.2
	v.x = between(v.x, -o.Length/2+margin, o.Length/2-margin)
	v.y = between(v.y, -o.Width/2+margin, o.Width/2-margin)
	return v
}
