package acoustics

import "math"

// DepthAtPressure returns the depth in metres at a pressure above atmospheric
// in dbar and a latitude in degrees, for a standard ocean (T 0 °C, S 35), by
// N. P. Fofonoff and R. C. Millard, UNESCO Technical Papers in Marine Science
// 44 (1983). The dynamic height of real water over that ocean is left out.
func DepthAtPressure(dbar, latitudeDeg float64) float64 {
	p := dbar
	s := math.Sin(latitudeDeg * math.Pi / 180)
	x := s * s
	gravity := 9.780318*(1+(5.2788e-3+2.36e-5*x)*x) + 1.092e-6*p
	return (((-1.82e-15*p+2.279e-10)*p-2.2512e-5)*p + 9.72659) * p / gravity
}

// PressureAtDepth is the inverse of [DepthAtPressure]: the pressure above
// atmospheric, in dbar, at a depth in metres.
func PressureAtDepth(depthM, latitudeDeg float64) float64 {
	// The slope dz/dp is within 5 % of one over the whole ocean, so plain
	// correction gains more than a digit a step.
	p := depthM
	for range 20 {
		p += depthM - DepthAtPressure(p, latitudeDeg)
	}
	return p
}
