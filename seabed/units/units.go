// Package units has the units that people use at sea, in those that the engine
// reckons in: metres, seconds and radians. It is a leaf that every room may
// import.
package units

import "math"

const (
	// NauticalMile is the international nautical mile, metres: exact (First
	// International Extraordinary Hydrographic Conference, Monaco 1929).
	NauticalMile = 1852.0
	// Knot is a nautical mile an hour, m/s (SI brochure, 8th edition 2006,
	// table 8).
	Knot = NauticalMile / 3600
	// Degree is a degree of arc, radians.
	Degree = math.Pi / 180
)

// Knots is a speed of so many knots, m/s. For a whole number of them it is the
// nearest float64, as a multiple of [Knot], itself rounded, need not be.
func Knots(kn float64) float64 { return kn * NauticalMile / 3600 }

// InKnots is a speed in m/s as so many knots, rounded twice at most: what
// [Knots] made of a whole number may come back an ulp off.
func InKnots(speed float64) float64 { return speed * 3600 / NauticalMile }
