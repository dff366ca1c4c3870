package seabed

import (
	"math"

	"dryline/seabed/transport"
)

// layWaves lays ripples, megaripples and sand waves on the sediments: the short ones as
// what a ray adds, the others into the heights.
func (w *World) layWaves(t *tile, s *scratch, x0, y0 float64) {
	weight, phase, strength := &s.weight, &s.crests.phase, &s.crests.strength
	for k := range w.spec.Bedforms {
		b, st := &w.spec.Bedforms[k], &w.bedforms[k]
		if st.wave.Wavelength == 0 || !s.weigh(&b.Area, &st.areaNoise, x0, y0) {
			continue
		}
		if b.On != Unset {
			for n := range weight {
				if t.surface[n].class != b.On {
					weight[n] = 0
				}
			}
		}
		from, to := s.weighed()
		if from >= to {
			continue
		}
		s.crests.lay(st, weight, x0, y0, from, to)
		if st.fine > 0 {
			for n := from * tileSide; n < to*tileSide; n++ {
				if weight[n] <= 0 {
					continue
				}
				if share := uint8(min(weight[n]*strength[n], 1) * 255); share > t.surface[n].share {
					t.surface[n].field, t.surface[n].share = uint8(st.fine), share
					t.surface[n].phase = int8(math.Round(float64(phase[n]-float32(math.Round(float64(phase[n]))))*256 - 0.5))
				}
			}
			continue
		}
		v := &st.wave
		kx, ky := v.waveNumber()
		for j := from; j < to; j++ {
			y := y0 + float64(j-tileMargin)*nodeStep
			for i := range tileSide {
				n := j*tileSide + i
				if weight[n] <= 0 {
					continue
				}
				x := x0 + float64(i-tileMargin)*nodeStep
				at := kx*x + ky*y + float64(phase[n])
				z := v.Height / 2 * waveProfile(at, v.Asymmetry)
				if v.Kind == SandWaves {
					z += st.mega(at, x, y)
				}
				t.z[n] += weight[n] * strength[n] * float32(z)
			}
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
