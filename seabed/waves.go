package seabed

import (
	"math"

	"dryline/seabed/transport"
)

// layWaves lays ripples, megaripples and sand waves on the sediments: the short ones as
// what a ray adds, the others into the heights.
func (w *World) layWaves(t *tile, s *scratch, x0, y0 float64) {
	weight, phase, strength := &s.weight, &s.phase, &s.strength
	for k := range w.spec.Bedforms {
		b, st := &w.spec.Bedforms[k], &w.bedforms[k]
		if st.wave.Wavelength == 0 || !s.weigh(&b.Area, st.cover, x0, y0) {
			continue
		}
		if b.On != Unset {
			for n := range weight {
				if t.surface[n].class != b.On {
					weight[n] = 0
				}
			}
		}
		st.crests(s, x0, y0)
		if st.fine > 0 {
			for n, a := range weight {
				if share := uint8(min(max(a*strength[n], 0), 1) * 255); share > t.surface[n].share {
					t.surface[n].field, t.surface[n].share = uint8(st.fine), share
					t.surface[n].phase = int8(math.Round(float64(phase[n]-float32(math.Round(float64(phase[n]))))*256 - 0.5))
				}
			}
			continue
		}
		v := &st.wave
		kx, ky := v.waveNumber()
		eachNode(x0, y0, func(n int, x, y float64) {
			if weight[n] > 0 {
				at := kx*x + ky*y + float64(phase[n])
				z := v.Height / 2 * waveProfile(at, v.Asymmetry)
				if v.Kind == SandWaves {
					z += st.mega(at, x, y)
				}
				t.z[n] += weight[n] * strength[n] * float32(z)
			}
		})
	}
}

// crests fills phase with how far the crests stray, in turns, and strength with how
// high they stand, where the field has any weight.
//
// Two trains of one wavelength that wander each its own way are added as
//
//	exp(2 pi i p1) + b exp(2 pi i p2) ,
//
// b a slow noise. Where the sum is nearly nothing, at points, a crest ends or forks: on
// a way round such a point the phase gains a whole turn. Without wander the crests are
// straight and none ends.
func (st *bedformState) crests(k *scratch, x0, y0 float64) {
	b := &st.wave
	phase, strength, first, second, re, im := &k.phase, &k.strength, &k.first, &k.second, &k.re, &k.im
	if b.Wander == 0 {
		for n := range phase {
			phase[n], strength[n] = 0, 1
		}
		return
	}
	s := 1 / (6 * max(b.Wavelength, 1))
	wander := func(shift float64) func(x, y float64) float64 {
		return func(x, y float64) float64 {
			x += shift / s
			return b.Wander * (st.noise.Eval2(x*s, y*s) + 0.5*st.noise.Eval2(2.7*x*s+9, 2.7*y*s))
		}
	}
	first.sample(x0, y0, wander(0))
	first.nodes(phase)
	second.sample(x0, y0, wander(57))
	k.c.sample(x0, y0, func(x, y float64) float64 { return 0.45 + 0.75*st.noise.Eval2(0.8*x*s+23, 0.8*y*s-41) })
	// Relative to the first train, so that nothing is lost of its whole turns.
	for n, share := range k.c {
		sin, cos := math.Sincos(2 * math.Pi * (second[n] - first[n]))
		share = max(share, 0)
		first[n], second[n] = 1+share*cos, share*sin
	}
	first.nodes(re)
	second.nodes(im)
	for n, a := range k.weight {
		if strength[n] = 1; a > 0 && im[n] != 0 {
			phase[n] += turnsOf(im[n], re[n])
			strength[n] = min(1, float32(math.Sqrt(float64(re[n]*re[n]+im[n]*im[n]))))
		}
	}
}

// mega is the height of the megaripples that a sand wave carries on its stoss side and
// not on its lee: a fifteenth of its length apart, of Flemming's mean height, highest
// near the crest.
func (st *bedformState) mega(phase, x, y float64) float64 {
	b := &st.wave
	length := megaLength(b.Wavelength)
	if length == 0 {
		return 0
	}
	// The profile sin(2 pi p + a sin(2 pi p)) falls from its crest to its trough over
	// the longer part of its turn: the stoss. q goes up it from 0 to 1.
	q := (1 - st.crest - (phase - math.Floor(phase))) / (1 - 2*st.crest)
	if q <= 0 || q >= 1 {
		return 0
	}
	kx, ky := b.waveNumber()
	ratio := b.Wavelength / length
	at := ratio*(kx*x+ky*y) + 0.13*ratio*math.Sin(2*math.Pi*0.37*phase)
	return transport.DuneHeight(length) / 2 * ramp(4*q) * ramp(5*(1-q)) * waveProfile(at, b.Asymmetry)
}

// megaLength is how far apart the megaripples on sand waves of a length are; 0 for none.
func megaLength(wavelength float64) float64 {
	length := min(max(wavelength/15, 1.6), 9)
	if wavelength < 4*length {
		return 0
	}
	return length
}

// crestOf is the phase of the crest of waveProfile, in turns.
func crestOf(asymmetry float64) float64 {
	p := math.Pi / 2
	for range 30 { // p + a sin p = pi/2
		p -= (p + asymmetry*math.Sin(p) - math.Pi/2) / (1 + asymmetry*math.Cos(p))
	}
	return p / (2 * math.Pi)
}
