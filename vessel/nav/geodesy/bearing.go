package geodesy

import "math"

// GridBearing is a direction in radians clockwise from grid north, the
// direction of growing northing. The engine's headings and courses are grid
// bearings.
type GridBearing float64

// TrueBearing is a direction in radians clockwise from true north, the
// direction of the meridian. A gyrocompass and a charted course speak true.
type TrueBearing float64

// GridBearingOf returns the grid bearing in [0, 2π) of a step of the given
// east and north components. The bearing of no step is 0.
func GridBearingOf(east, north float64) GridBearing {
	return GridBearing(wrapBearing(math.Atan2(east, north)))
}

// True returns the bearing from true north, in [0, 2π), where the grid
// convergence is γ radians:
//
//	true = grid + γ
func (b GridBearing) True(convergence float64) TrueBearing {
	return TrueBearing(wrapBearing(float64(b) + convergence))
}

// Grid returns the bearing from grid north, in [0, 2π), where the grid
// convergence is γ radians:
//
//	grid = true - γ
func (b TrueBearing) Grid(convergence float64) GridBearing {
	return GridBearing(wrapBearing(float64(b) - convergence))
}

// Degrees returns the bearing in degrees.
func (b GridBearing) Degrees() float64 { return float64(b) * (180 / math.Pi) }

// Degrees returns the bearing in degrees.
func (b TrueBearing) Degrees() float64 { return float64(b) * (180 / math.Pi) }

// wrapBearing returns the angle in [0, 2π) that differs from a by whole turns.
func wrapBearing(a float64) float64 {
	a = math.Mod(a, 2*math.Pi)
	if a < 0 {
		a += 2 * math.Pi
	}
	// A tiny negative angle rounds up to the full turn.
	if a >= 2*math.Pi {
		a = 0
	}
	return a
}
