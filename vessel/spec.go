package vessel

// Spec describes a hull and her engine.
type Spec struct {
	Name   string
	Length float64 // water line, metres
	Beam   float64 // metres
	Draft  float64 // metres
	Mass   float64 // displacement with added mass in surge, kg

	Block float64 // block coefficient
	GM    float64 // metacentric height, metres

	// Nomoto constants without dimension: K = TurningIndex*U/L, T = TimeIndex*L/U.
	TurningIndex, TimeIndex float64
	RudderMax               float64 // radians
	RudderRate              float64 // radians per second
	PropellerWalk           float64 // rudder angle it is worth at full thrust and no way on, radians; right-handed positive

	SpeedMax float64 // through still water at full power, m/s

	WindAreaFront, WindAreaSide float64   // above the water, m^2
	Wind                        WindShape // the zero value is a tender's

	Antenna Offset // of the GNSS antenna from the vessel's own origin
	Sheave  Offset // where the cable leaves the vessel
}

// Offset is a place on board, metres forward, to starboard and above the water.
type Offset struct{ Forward, Starboard, Up float64 }
