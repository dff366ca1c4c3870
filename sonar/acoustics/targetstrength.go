package acoustics

import "math"

// The target strengths are those of rigid bodies, R. J. Urick, Principles of
// Underwater Sound, 3rd ed. (1983), Table 9.1, in dB. They need the body to lie
// in one beam and beyond its own near field, which at side-scan ranges few do:
// a cylinder of 2 m at 455 kHz wants more than 1200 m. A simulated target is
// better summed from small parts.

// SphereStrength returns 10 log10(a²/4) for a sphere of radius a in metres with
// ka above 10. A sphere of radius 2 m has 0 dB.
func SphereStrength(radius float64) float64 {
	return Decibels(radius * radius / 4)
}

// CylinderStrength returns 10 log10(a L²/2λ · (sin β/β)² cos² φ) with
// β = k L sin φ, for a cylinder of radius a and length L in metres seen φ
// radians off its broadside, from beyond L²/λ and with ka much above one.
func CylinderStrength(radius, length, wavelength, aspectRad float64) float64 {
	return Decibels(radius*length*length/(2*wavelength)) + aspect(length, wavelength, aspectRad)
}

// PlateStrength returns 20 log10(A/λ) plus the fall (sin β/β)² cos² φ with
// β = k w sin φ, for a flat plate w by h metres seen φ radians off its normal,
// turned about its height, from beyond A/λ.
func PlateStrength(width, height, wavelength, aspectRad float64) float64 {
	return 2*Decibels(width*height/wavelength) + aspect(width, wavelength, aspectRad)
}

func aspect(length, wavelength, angle float64) float64 {
	sin, cos := math.Sincos(angle)
	return 2 * Decibels(math.Abs(sinc(2*math.Pi*length/wavelength*sin)*cos))
}
