package seabed

import (
	"math"
	"math/rand/v2"
)

// buildAircraft makes a small low-wing aircraft on its belly, banked so that
// one wing tip touches the floor and the other stands clear of it. Length is
// nose to tail, Width the span, Height that of the fin.
func buildAircraft(s *shape, o *Object, rng *rand.Rand) {
	l, h := o.Length, o.Height
	side := either(rng) // the low wing's
	deep := 0.5 * h     // of the fuselage at the cabin
	wide := min(0.14*l, 0.25*o.Width)

	// Fuselage: ellipses about an axis that rises to the tail.
	const n = 12
	us := []float64{0, 0.08, 0.25, 0.45, 0.55, 0.68, 0.82, 0.93, 0.97, 1}
	breadths := []float64{0.10, 0.22, 0.55, 0.95, 1, 1, 0.92, 0.78, 0.60, 0.22}
	tops := []float64{0.92, 0.92, 0.95, 1.18, 1.55, 1.50, 1.02, 0.90, 0.80, 0.60}
	bottoms := []float64{0.66, 0.56, 0.30, 0.08, 0, 0, 0.02, 0.10, 0.20, 0.40}
	var stations []float64
	var outlines [][]vec
	for i, u := range us {
		outline := make([]vec, n+1)
		mid, half := (tops[i]+bottoms[i])/2*deep, (tops[i]-bottoms[i])/2*deep
		for k := range outline {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / n)
			outline[k] = vec{0, breadths[i] * wide / 2 * cos, mid + half*sin}
		}
		stations, outlines = append(stations, (u-0.5)*l), append(outlines, outline)
	}
	s.add(newLoft(stations, outlines), o.Class, 0, 0, 0, 0)

	// Fin and rudder, swept.
	fin := func(z0, z1 float64) []vec {
		return []vec{{0, -0.05, z0}, {0, -0.05, z1}, {0, 0.05, z1}, {0, 0.05, z0}}
	}
	s.add(newLoft([]float64{-l / 2, -0.43 * l, -0.32 * l}, [][]vec{
		fin(0.9*deep, h), fin(0.9*deep, h), fin(0.8*deep, deep),
	}), o.Class, 0, 0, 0, 0)

	// Wings: root chord from 0.52 to 0.72 of the length, tapered to the tip.
	root, tip := 0.2*l, 0.13*l
	lead := 0.21 * l // leading edge at the root
	out := o.Width / 2
	const thick = 0.07
	high := min(0.62*h, 1.5) // of the raised tip
	// The low wing lies on the floor at its tip: a height field.
	low := newLoft([]float64{0, out}, [][]vec{
		{{0, -root / 2, 0.2 * deep}, {0, 0.1 * root, 0.2*deep + 1.4*thick}, {0, root / 2, 0.2 * deep}},
		{{0, -tip / 2, 0.02}, {0, 0.1 * tip, thick}, {0, tip / 2, 0.02}},
	})
	s.add(low, o.Class, lead-root/2, 0, 0, side*math.Pi/2)
	// The raised one is seen under: rods side by side across the chord.
	raise(s, o.Class, thick, 16,
		vec{lead, -side * 0.3 * wide, 0.3 * deep}, root,
		vec{lead - 0.1*(root-tip), -side * (out - thick), high - thick}, tip)
	// Tailplane, both sides clear of the floor and banked with the wings.
	bank := (high - 0.3*deep) / out
	span := min(0.34*o.Width/2, out)
	for _, hand := range []float64{-1, 1} {
		lift := -side * hand * bank * span
		raise(s, o.Class, 0.04, 10,
			vec{-0.39 * l, hand * 0.1 * wide, 0.85 * deep}, 0.095*l,
			vec{-0.405 * l, hand * span, max(0.85*deep+lift, 0.05)}, 0.07*l)
	}
	// Propeller blades, one bent back by the landing.
	hub := vec{l/2 - 0.06, 0, 0.5 * deep}
	turn := within(rng, 0.3, 1)
	reach := min(0.11*l, 0.48*deep)
	blade := vec{0, reach * math.Cos(turn), reach * math.Sin(turn)}
	s.rod(o.Class, 0.05, hub, hub.plus(blade))
	s.rod(o.Class, 0.05, hub, hub.plus(vec{-0.4 * reach, -0.8 * blade.y, -0.8 * blade.z}))
}

// raise makes a thin wing clear of the floor from rods along its span: a and b
// are its leading edge at root and tip, with the chords there.
func raise(s *shape, class Class, radius float64, n int, a vec, rootChord float64, b vec, tipChord float64) {
	for i := range n {
		t := (float64(i) + 0.5) / float64(n)
		s.rod(class, radius, vec{a.x - t*rootChord, a.y, a.z}, vec{b.x - t*tipChord, b.y, b.z})
	}
}
