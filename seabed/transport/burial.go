package transport

import "math"

// Burial is how deep a thing on a moving bed of sand sinks into its own scour, over its
// own height, when the flow of a Shields parameter has had its time (Rennie, Brandt
// and Friedrichs, Ocean Eng. 131, 2017): 1.3 theta^0.36 of what is thicker than 8 cm,
// 15 theta^1.1 of what is thinner than 3 cm or tapered, on a line between. At most 1:
// deeper than covered is not known. Below the threshold of motion there is none.
func Burial(shields, thickness float64) float64 {
	const thin, thick = 0.03, 0.08
	of := min(max((thickness-thin)/(thick-thin), 0), 1)
	small := min(15*math.Pow(shields, 1.1), 1)
	large := min(1.3*math.Pow(shields, 0.36), 1)
	return small + of*(large-small)
}

// PileScour is the depth of the scour about a pile over its diameter: 1.3 in a
// current, 1.3 (1 - exp(-0.03 (KC - 6))) in waves of a Keulegan-Carpenter number, none
// below 6 (Sumer and Fredsoe, in DNV-RP-C205).
func PileScour(kc float64) float64 { return 1.3 * -math.Expm1(-0.03*max(kc-6, 0)) }
