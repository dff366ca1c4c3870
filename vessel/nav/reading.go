package nav

import (
	"math"

	"dryline/vessel/nav/geodesy"
)

// Set is a set of displays.
type Set uint16

// The displays.
const (
	Fix Set = 1 << iota // position, course and speed over ground
	Heading
	RateOfTurn
	Motion
	CableCounter
	FishDepth
	FishAltitude
	FishAttitude
	Beacon
	WaterSpeed
	Wind     // apparent
	TrueWind // worked out from the apparent one, fix and heading
)

// Has reports whether all of the displays are in the set.
func (s Set) Has(displays Set) bool { return s&displays == displays }

// put puts the display in or takes it out.
func (s *Set) put(display Set, in bool) {
	*s &^= display
	if in {
		*s |= display
	}
}

// Quality is the kind of fix that a receiver says it has.
type Quality uint8

// The qualities of a fix.
const (
	NoFix Quality = iota
	Autonomous
	Differential
	RTK
)

// Reading is one set of displays, taken at the end of a tick. A display that
// has nothing new to say holds its last value.
type Reading struct {
	Time  float64 // seconds since the start
	Valid Set     // displays that hold good by their own account
	Fresh Set     // displays whose instrument spoke at this tick

	X, Y            float64             // antenna, on the local grid, metres
	FixTime         float64             // when the antenna was there: the epoch of the last good fix, seconds since the start
	Quality         Quality             // of the fix
	Satellites      int                 // used in the fix
	HDOP            float64             // horizontal dilution of precision of those satellites
	SpeedOverGround float64             // m/s
	Course          geodesy.TrueBearing // over ground
	Convergence     float64             // from true to grid at the vessel, as navigation works it out, radians

	Heading            geodesy.TrueBearing
	RateOfTurn         float64 // radians per second, positive to starboard
	Heave, Pitch, Roll float64 // metres and radians

	CableOut     float64 // metres by the counter
	FishDepth    float64 // metres
	FishAltitude float64 // metres; 0 until there has been one
	FishHeading  geodesy.TrueBearing
	FishPitch    float64 // radians, nose up positive
	FishRoll     float64 // radians

	Beacon BeaconReading

	WaterSpeed float64 // ahead through the water, m/s

	WindSpeed, WindFrom float64 // apparent: m/s, and where it comes from off the bow, -pi to pi
	TrueWindSpeed       float64 // over ground, m/s
	TrueWindFrom        geodesy.TrueBearing
}

// BeaconReading is where the acoustic beacon on the fish was last heard.
type BeaconReading struct {
	X, Y, Depth float64 // metres
	Slant       float64 // range from the transducer, metres
	OK          bool    // the last call was answered
	Time        float64 // of the last answer, seconds since the start
}

// GridHeading is the vessel's heading on the grid.
func (r *Reading) GridHeading() geodesy.GridBearing { return r.Heading.Grid(r.Convergence) }

// CarriedOn is where the antenna is by now: the last fix, carried on along its
// course with its speed since its epoch.
func (r *Reading) CarriedOn() (x, y float64) {
	age := r.Time - r.FixTime
	if age <= 0 {
		return r.X, r.Y
	}
	sin, cos := math.Sincos(float64(r.GridCourse()))
	run := r.SpeedOverGround * age
	return r.X + run*sin, r.Y + run*cos
}

// GridCourse is the course over ground on the grid.
func (r *Reading) GridCourse() geodesy.GridBearing { return r.Course.Grid(r.Convergence) }
