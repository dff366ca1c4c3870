package sonar

import "dryline/seabed"

// Effects spoil a record. The zero value spoils nothing; every effect is switched
// by itself and draws from a stream of its own, so that switching
// one leaves the rest of the record as it was.
type Effects struct {
	SurfaceEcho   bool // the sea surface answers
	SurfaceGhosts bool // the floor answers again by way of the surface
	SecondBottom  bool // the floor answers again by way of surface and floor

	CrossTalk float64 // of the other side in this one, dB; 0 for none

	Bubbles  Bubbles   // that the wind beats into the water
	Wake     Wake      // of the vessel
	Sounders []Sounder // other vessels'
	Schools  []School
	Kelp     []Kelp
	Seeps    []Seep
	Springs  []Spring
	Layers   []Layer
	Hum      Hum
	Drops    Drops
	Faults   Faults

	CurrentX, CurrentY float64 // m/s, towards; what seeps lean with
}

// Bubbles is the layer of bubbles that the wind beats into the water, and the
// noise it makes there.
type Bubbles struct {
	On        bool
	NoiseRise float64 // of the channel's own noise, dB
}

// Wake is the bubbly water the vessel leaves behind.
type Wake struct {
	Attenuation float64 // fresh, at the surface, one way, dB/m; 0 for no wake
	HalfLife    float64 // of the bubbles, seconds
	Width       float64 // fresh, metres
	Spread      float64 // of the width, m/s
	Depth       float64 // metres
}

// Sounder is another vessel's echo sounder or sonar within hearing.
type Sounder struct {
	Frequency   float64 // Hz
	Interval    float64 // between its pings, seconds
	PulseLength float64 // seconds
	Level       float64 // at our receiver when in its band, dB re 1 uPa
	Offset      float64 // time of its first ping, seconds
}

// School is a school of fish: an ellipsoid with its long axis level.
type School struct {
	X, Y    float64
	Depth   float64 // of its middle, metres
	Length  float64 // along the heading, metres
	Width   float64 // metres
	Height  float64 // metres
	Heading float64 // grid bearing, radians
	Density float64 // fish to the cubic metre
	Fish    float64 // length of one, metres
}

// Kelp is a forest of plants that grow from the floor.
type Kelp struct {
	Area    seabed.Area // its polygon; empty for everywhere
	Height  float64     // of a full-grown plant, metres
	Radius  float64     // of its leaves, metres
	Density float64     // plants to the square metre
	Through float64     // share of the sound one plant lets through one way, 0..1
}

// Seep is a column of gas bubbles from a point on the floor.
type Seep struct {
	X, Y, Z  float64 // its mouth
	Rise     float64 // speed of the bubbles, m/s
	Width    float64 // of the column at the mouth, metres; it doubles by ten metres up
	Strength float64 // target strength of one metre of it, dB re 1 m^2
}

// Spring is a place on the floor where fresh water wells up.
type Spring struct {
	X, Y, Z  float64 // its mouth
	Rise     float64 // speed at the mouth, m/s
	Width    float64 // of the mouth, metres
	Strength float64 // volume scattering strength there, dB re 1 m^-1
}

// Layer is a band in the water that scatters: plankton on a thermocline.
type Layer struct {
	Depth     float64 // of its middle, metres
	Thickness float64 // metres
	Strength  float64 // volume scattering strength in its middle, dB re 1 m^-1
	Swing     float64 // amplitude of the internal waves on it, metres
	Swell     float64 // their length along the track, metres; 0 for none
}

// Hum is picked up by the receiver from the mains.
type Hum struct {
	Level     float64 // mean, at the receiver, dB re 1 uPa; 0 for none
	Frequency float64 // of the mains, Hz
	Sharpness float64 // of the lines: 1 a plain ripple, more for narrower lines
}

// Drops are pings that never reach the recorder. It leaves their rows blank.
type Drops struct {
	Share  float64 // of pings lost one by one, 0..1
	Bursts float64 // runs of lost pings, to the ping
	Length int     // longest of a run, at most [LongestBurst]
}

// LongestBurst is the most pings lost in one run.
const LongestBurst = 64
