package sea

import "math"

// M2 is the period of the principal lunar tide in seconds: 360 degrees at
// 28.9841042 degrees an hour (P. Schureman, Manual of Harmonic Analysis and
// Prediction of Tides, US Coast and Geodetic Survey, 1940, table 2).
const M2 = 360 / 28.9841042 * 3600

// Tide is a tide of one constituent,
//
//	z = a cos(2 pi (t - high)/period)
type Tide struct {
	Amplitude float64 // half the range, metres
	High      float64 // time of a high water, seconds
	Period    float64 // seconds; 0 takes [M2]
}

// Height returns the water above its mean in metres at a time in seconds.
func (t Tide) Height(at float64) float64 {
	return t.Amplitude * math.Cos(t.speed()*(at-t.High))
}

// Rate returns how fast the water rises, m/s.
func (t Tide) Rate(at float64) float64 {
	return -t.Amplitude * t.speed() * math.Sin(t.speed()*(at-t.High))
}

// speed is that of the constituent, rad/s.
func (t Tide) speed() float64 {
	if t.Period <= 0 {
		return 2 * math.Pi / M2
	}
	return 2 * math.Pi / t.Period
}
