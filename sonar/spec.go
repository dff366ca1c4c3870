package sonar

import (
	"dryline/sonar/acoustics"
	"dryline/sonar/recorder"
)

// Spec describes a side-scan sonar and its settings.
type Spec struct {
	RangeScale   float64 // one side, metres, by the recorder's own sound speed
	Samples      int     // per side, channel and ping
	Depression   float64 // vertical beam axis below the horizontal, radians
	VerticalBeam float64 // one-way half-power width of the vertical beam, radians
	Rays         int     // across the beam, each side; 0 takes as many as it needs
	Channels     []Channel
	Step         GroundStep // of the floor along a ray
	Effects      Effects    // what spoils the record; the zero value nothing
}

// Dynamic as a channel's Focus follows the echo out: focused at every range.
const Dynamic = -1

// Channel is one frequency of the sonar.
type Channel struct {
	Name              string
	Frequency         float64 // Hz
	Bandwidth         float64 // of the chirp, Hz; 0 for a CW pulse
	PulseLength       float64 // seconds
	ArrayLength       float64 // metres, transmit and receive alike
	ArrayShading      string  // of the array: uniform (or empty), hann, hamming, cosine
	PulseShading      string  // of the chirp's compression, likewise
	Focus             float64 // range the array is focused at, metres; 0 none, [Dynamic] every range
	SourceLevel       float64 // dB re 1 uPa at 1 m
	NoiseFigure       float64 // receiver noise above thermal, dB
	RingDown          float64 // time in which the transducer falls silent by 60 dB after its pulse, seconds; 0 if it is not heard
	recorder.Receiver         // what the surveyor sets
}

// Sea is the water the sonar works in.
type Sea struct {
	Temperature float64 // deg C
	Salinity    float64 // PSU
	PH          float64
	Depth       float64     // at which sound speed and absorption are taken, metres
	Wind        float64     // m/s, for the noise
	Scattering  float64     // volume scattering strength of what drifts in the water, dB re 1 m^-1; 0 for none
	FlatTrend   bool        // leave out the growth of backscatter with frequency above 100 kHz
	Cast        []CastPoint // sound speed by depth; none is the same speed everywhere
	SoundSpeed  acoustics.SoundSpeedModel
	Absorption  acoustics.AbsorptionModel
}
