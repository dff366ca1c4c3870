package acoustics

import "math/cmplx"

// halfSpace is a bottom as a lossy fluid below a flat boundary.
type halfSpace struct {
	density float64    // ρ
	kappa   complex128 // κ = (1+iδ)/ν, wave number in the bottom over that in the water
}

func (b *Bottom) halfSpace() halfSpace {
	return halfSpace{
		density: b.DensityRatio,
		kappa:   complex(1/b.SoundSpeedRatio, b.LossParameter/b.SoundSpeedRatio),
	}
}

// reflection returns the reflection coefficient R and the vertical wave number
// ratio P = √(κ²-cos²θ) at a grazing angle given by its sine and cosine.
func (h halfSpace) reflection(sin, cos float64) (r, p complex128) {
	p = cmplx.Sqrt(h.kappa*h.kappa - complex(cos*cos, 0))
	y := complex(h.density*sin, 0) / p
	return (y - 1) / (y + 1), p
}

// power returns |z|² without the square root of cmplx.Abs.
func power(z complex128) float64 {
	return real(z)*real(z) + imag(z)*imag(z)
}
