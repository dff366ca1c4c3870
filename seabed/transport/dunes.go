package transport

import "math"

// DuneHeight is the mean height of dunes and sand waves of a length, and
// HighestDune the most there is: H = 0.0677 L^0.8098 and 0.16 L^0.84 (Flemming 1988).
func DuneHeight(length float64) float64 { return 0.0677 * math.Pow(length, 0.8098) }

// HighestDune is the upper limit of [DuneHeight].
func HighestDune(length float64) float64 { return 0.16 * math.Pow(length, 0.84) }

// Dune is the dune of a current in a depth of water over grains, of an excess stress
// T = (tau - tau_cr)/tau_cr (van Rijn 1984, in Soulsby 1997, equation 83):
//
//	L = 7.3 h ,  H = 0.11 h (D/h)^0.3 (1 - exp(-T/2)) (25 - T)
//
// and none for T <= 0 or T >= 25. It is made for rivers: of tidal sand waves take the
// length that is observed and [DuneHeight].
func Dune(depth, d, excess float64) Ripple {
	if excess <= 0 || excess >= 25 {
		return Ripple{}
	}
	return Ripple{7.3 * depth, 0.11 * depth * math.Pow(d/depth, 0.3) * (1 - math.Exp(-0.5*excess)) * (25 - excess)}
}
