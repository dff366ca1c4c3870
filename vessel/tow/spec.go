package tow

// Spec describes the gear.
type Spec struct {
	Cable Cable
	Fish  Fish
	Winch Winch

	Unrest Unrest
}

// Cable is a round bare cable.
type Cable struct {
	Diameter   float64 // metres
	Weight     float64 // in water, N/m
	Normal     float64 // normal drag coefficient Cn, on the diameter
	Tangential float64 // tangential drag coefficient Ct, on the wetted surface pi*d
	Length     float64 // on the drum, metres
}

// Fish is the towed body.
type Fish struct {
	Weight   float64 // in water less lift, N
	DragArea float64 // Cd*A, m^2
	Mass     float64 // in air, kg; at least what its weight in water makes
	Pitch    float64 // trim, radians, nose up positive
}

// Winch pays out and hauls.
type Winch struct {
	Rate float64 // m/s, both ways
	Min  float64 // shortest cable out: the fish at the sheave, metres
}
