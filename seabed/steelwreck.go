package seabed

import (
	"math"
	"math/rand/v2"
)

// buildSteelWreck makes a steel coaster broken in two: the fore part nearly
// upright with her hold open and rails standing, the after part with the
// deckhouse over on her side and turned away, plates and frames between.
func buildSteelWreck(s *shape, o *Object, rng *rand.Rand) {
	noise := noiseOf(rng)
	side := either(rng)
	l, w, h := o.Length, o.Width, o.Height
	f := form{
		length: l, offsets: coaster, turn: 0.14, bulwark: 0.1, coaming: 0.1, side: 0.012,
		holds: []hold{{0.50, 0.72, 0.62, 0.12}, {0.30, 0.38, 0.62, 0.15}},
	}
	torn := func(body *loft, at float64) {
		body.worn = bake(body.rect, 0.15, func(x, y float64) float64 {
			// Plates corroded through, and the torn end bent down.
			near := max(0, 1-math.Abs(x-at)/(0.09*l))
			return 0.18*max(0, noise.Eval2(0.4*x, 0.7*y)) + h*near*near*(0.35+0.5*noise.Eval2(0.5*x+70, 0.6*y))
		})
		for i, v := range body.worn.v {
			body.worn.v[i] = max(v, 0)
		}
	}
	rails := 0.17 * h

	bow := pose{heel: -side * within(rng, 0.05, 0.16), trim: within(rng, 0, 0.02)}
	fore := fit(&bow, 0.72*w, h-rails, func(beam, depth float64) []*loft {
		f.beam, f.depth = beam, depth
		windlass := f.deckAt(0.9)
		return []*loft{
			f.loft(&bow, 0.48, 1),
			slab(&bow, f.x(0.885), f.x(0.905), -0.16*beam, 0.16*beam, windlass, windlass+0.12*depth),
			slab(&bow, f.x(0.735), f.x(0.755), -0.2*beam, 0.2*beam, f.deckAt(0.745), f.deckAt(0.745)+0.2*depth), // mast house
		}
	})
	torn(fore[0], f.x(0.48))
	bow.at.y += side * 0.1 * w
	s.addPosed(o.Class, &bow, fore...)
	for _, hand := range []float64{-1, 1} {
		var top, middle []vec
		for u := 0.76; u < 0.98; u += 0.03 {
			v := f.rail(u)
			v.y *= 0.96 * hand
			post := vec{v.x, v.y, v.z + 0.9*rails}
			s.rod(o.Class, 0.025, bow.apply(v), bow.apply(post))
			top, middle = append(top, bow.apply(post)), append(middle, bow.apply(v.towards(post, 0.5)))
		}
		s.line(o.Class, 0.025, top...)
		s.line(o.Class, 0.02, middle...)
	}
	// The foremast fell aft across the hold and lies on the coaming.
	mast := bow.apply(vec{f.x(0.745), 0, f.deckAt(0.745) + 0.22*f.depth})
	s.rod(o.Class, 0.18, mast, bow.apply(vec{f.x(0.50), 0.3 * f.beam, f.deckAt(0.5) + 0.16*f.depth}))
	s.rod(o.Class, 0.1, mast, bow.apply(vec{f.x(0.56), -0.3 * f.beam, f.deckAt(0.56) + 0.22*f.depth}))

	stern := pose{heel: side * within(rng, 0.7, 0.95)}
	const cut = 0.42 // u
	after := fit(&stern, 0.62*w, 0.93*h, func(beam, depth float64) []*loft {
		f.beam, f.depth = beam, depth
		deck := f.deckAt(0.16)
		return []*loft{
			f.loft(&stern, 0, cut),
			slab(&stern, f.x(0.05), f.x(0.27), -0.40*beam, 0.40*beam, deck, deck+0.24*depth),
			slab(&stern, f.x(0.15), f.x(0.25), -0.34*beam, 0.34*beam, deck+0.24*depth, deck+0.46*depth), // bridge
		}
	})
	torn(after[0], f.x(cut))
	half := cut / 2 * l
	stern.yaw = -side * math.Asin(between((w-0.62*w)/(2*half), 0, 0.5)) * within(rng, 0.6, 0.85)
	// Turn it about its own middle, and set that so that its end meets the
	// stern of the whole.
	sin, cos := math.Sincos(stern.yaw)
	centre := f.x(cut / 2)
	stern.at.x = -l/2 + half*cos + 0.31*w*math.Abs(sin) - centre*cos
	offset := stern.at.y
	stern.at.x -= offset * sin
	stern.at.y = offset*cos - centre*sin
	s.addPosed(o.Class, &stern, after...)
	funnel := stern.apply(vec{f.x(0.10), 0, f.deckAt(0.16) + 0.24*f.depth})
	end := stern.apply(vec{f.x(0.09), 0, f.deckAt(0.16) + 0.5*f.depth})
	const stack = 0.6
	funnel.z, end.z = between(funnel.z, stack, h-stack), between(end.z, stack, h-stack)
	end.y = between(end.y, -w/2+stack, w/2-stack)
	s.rod(o.Class, stack, funnel, end)
	// Plates, frames and hatch boards between the two parts.
	for range 16 {
		plate := box{within(rng, 0.010, 0.04) * l, within(rng, 0.006, 0.02) * l, within(rng, 0.1, 0.14*h)}
		x, y := within(rng, -0.16, 0.02)*l, within(rng, -1, 1)*(0.49*w-plate.halfLength-plate.halfWidth)
		q := s.add(plate, o.Class, x, y, 0, math.Pi*rng.Float64())
		q.tilt, q.lies = within(rng, -0.2, 0.2), true
		if rng.Float64() < 0.5 {
			s.rod(o.Class, 0.06, vec{x, y, 0}, vec{x + within(rng, -1.5, 1.5), y * within(rng, 0.6, 1), within(rng, 0.2, 0.4) * h})
		}
	}
}
