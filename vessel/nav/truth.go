package nav

// Truth holds the true values of all that the instruments measure. Only the
// session fills it.
type Truth struct {
	VesselX, VesselY   float64 // her origin
	AntennaX, AntennaY float64
	VX, VY             float64 // of the antenna over ground
	Heading, YawRate   float64 // grid bearing
	Heave, Pitch, Roll float64
	WaterAhead         float64 // speed through the water along the keel
	WindX, WindY       float64 // velocity the air moves with, over ground
	CableOut           float64
	FishX, FishY       float64
	FishDepth          float64
	FishAltitude       float64
	InTheWay           float64 // how far under the fish something in the water returns the altimeter's sound, metres; 0 for clear water
	FishHeading        float64 // grid bearing
	FishPitch          float64
	FishRoll           float64
	Convergence        float64 // at the vessel, radians
}
