package tow

// Spec describes the gear.
type Spec struct {
	Cable Cable
	Fish  Fish
	Winch Winch

	Jitter JitterSpec
}

// Cable is a round bare cable.
type Cable struct {
	Diameter   float64 // metres
	Weight     float64 // in water, N/m
	Normal     float64 // normal drag coefficient Cn, on the diameter
	Tangential float64 // tangential drag coefficient Ct, on the wetted surface pi*d
	Length     float64 // on the drum, metres

	WorkingLoad float64 // tension above which an alarm sounds, N; 0 for none
	Breaking    float64 // N; 0 if unknown
}

// Fish is the towed body.
type Fish struct {
	Weight   float64 // in water less lift, N
	DragArea float64 // Cd*A, m^2
	Mass     float64 // in air, kg; at least what its weight in water makes
	Pitch    float64 // trim, radians, nose up positive

	Depressor float64 // lift coefficient times area of a wing that pulls down, m^2

	// What makes it swing; without a length it lies along the flow.
	Length     float64 // metres
	FinArea    float64 // of the pair that turns it, m^2
	TowForward float64 // of the tow point from the middle, metres
	TowAbove   float64 // of the tow point above the middle, metres
}

// Winch pays out and hauls.
type Winch struct {
	Rate float64 // m/s, both ways
	Min  float64 // shortest cable out: the fish at the sheave, metres

	// Limits; 0 is none.
	Pull  float64 // hauls no more than this, N
	Power float64 // of the motor, or of the arm at the crank, W
	Brake float64 // slips above this, N
}
