package acoustics

import "math"

// volume is the scattering by the sediment below a flat boundary, TR 9407,
// Section IV, Eqs. 65-66.
type volume struct {
	space halfSpace
	scale float64 // 5 δ σ2 / (ν ln 10)
}

func newVolume(b *Bottom) volume {
	return volume{
		space: b.halfSpace(),
		scale: 5 * b.LossParameter * b.VolumeParameter / (b.SoundSpeedRatio * math.Ln10),
	}
}

// at returns the cross section at a grazing angle, before any slope average.
func (v *volume) at(grazing float64) float64 {
	if v.scale == 0 {
		return 0
	}
	sin, cos := math.Sincos(grazing)
	r, p := v.space.reflection(sin, cos)
	return v.scale * power(1-r*r) * sin * sin / (power(p) * imag(p))
}
