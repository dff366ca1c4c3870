package nav

import (
	"math"
	"math/rand/v2"

	"dryline/sim/chance"
	"dryline/vessel/nav/geodesy"
)

// Spec gives the errors of the instruments. Zero is a perfect instrument.
type Spec struct {
	GNSSDrift     float64 // standard deviation of the slow error, each axis, metres
	GNSSDriftTime float64 // its correlation time, seconds
	GNSSNoise     float64 // standard deviation from fix to fix, metres
	HeadingBias   float64 // radians
	HeadingNoise  float64 // radians
	SpeedNoise    float64 // m/s
	CounterScale  float64 // cable counter: share read too much, 0.01 is 1 %
	DepthBias     float64 // fish pressure depth, metres
	DepthNoise    float64 // metres
	AltitudeNoise float64 // fish altimeter, metres
	CompassBias   float64 // fish heading, radians
	CompassNoise  float64 // radians
}

// Truth is what the instruments measure. Only the session fills it.
type Truth struct {
	AntennaX, AntennaY float64
	VX, VY             float64
	Heading, YawRate   float64 // grid bearing
	CableOut           float64
	FishDepth          float64
	FishAltitude       float64
	FishHeading        float64 // grid bearing
	FishPitch          float64
	Convergence        float64 // at the vessel, radians
}

// Reading is one set of displays, taken at the end of a tick.
type Reading struct {
	Time            float64             // seconds since the start
	X, Y            float64             // antenna, on the local grid, metres
	SpeedOverGround float64             // m/s
	Course          geodesy.TrueBearing // over ground
	Heading         geodesy.TrueBearing
	RateOfTurn      float64 // radians per second, positive to starboard
	CableOut        float64 // metres by the counter
	FishDepth       float64 // metres
	FishAltitude    float64 // metres
	FishHeading     geodesy.TrueBearing
	FishPitch       float64 // radians, nose up positive
}

// Instruments turns truth into readings.
type Instruments struct {
	spec Spec

	gnss, heading, speed, depth, altimeter, compass *rand.Rand

	driftX, driftY float64
	started        bool
}

// New starts the instruments on their own streams of the exercise seed.
func New(spec Spec, seed uint64) *Instruments {
	stream := func(name string) *rand.Rand { return chance.Stream(seed, "nav/"+name) }
	return &Instruments{
		spec: spec, gnss: stream("gnss"), heading: stream("heading"), speed: stream("speed"),
		depth: stream("depth"), altimeter: stream("altimeter"), compass: stream("compass"),
	}
}

// Read takes a reading dt seconds after the last.
//
// The fix carries white noise and a first-order Gauss-Markov drift, which is
// the shape of GNSS errors (Parkinson and Spilker, Global Positioning System:
// Theory and Applications, 1996); the rest carry bias and white noise. Left
// out: delays, drop-outs, quantisation.
func (n *Instruments) Read(now, dt float64, t Truth) Reading {
	s := &n.spec
	if !n.started {
		n.driftX, n.driftY = s.GNSSDrift*n.gnss.NormFloat64(), s.GNSSDrift*n.gnss.NormFloat64()
		n.started = true
	} else if s.GNSSDriftTime > 0 {
		keep := math.Exp(-dt / s.GNSSDriftTime)
		kick := s.GNSSDrift * math.Sqrt(1-keep*keep)
		n.driftX = keep*n.driftX + kick*n.gnss.NormFloat64()
		n.driftY = keep*n.driftY + kick*n.gnss.NormFloat64()
	}
	toTrue := func(grid, error float64) geodesy.TrueBearing {
		return geodesy.GridBearing(grid + error).True(t.Convergence)
	}
	r := Reading{
		Time:         now,
		X:            t.AntennaX + n.driftX + s.GNSSNoise*n.gnss.NormFloat64(),
		Y:            t.AntennaY + n.driftY + s.GNSSNoise*n.gnss.NormFloat64(),
		Heading:      toTrue(t.Heading, s.HeadingBias+s.HeadingNoise*n.heading.NormFloat64()),
		RateOfTurn:   t.YawRate,
		CableOut:     t.CableOut * (1 + s.CounterScale),
		FishDepth:    max(t.FishDepth+s.DepthBias+s.DepthNoise*n.depth.NormFloat64(), 0),
		FishAltitude: max(t.FishAltitude+s.AltitudeNoise*n.altimeter.NormFloat64(), 0),
		FishHeading:  toTrue(t.FishHeading, s.CompassBias+s.CompassNoise*n.compass.NormFloat64()),
		FishPitch:    t.FishPitch,
	}
	vx := t.VX + s.SpeedNoise*n.speed.NormFloat64()
	vy := t.VY + s.SpeedNoise*n.speed.NormFloat64()
	r.SpeedOverGround = math.Hypot(vx, vy)
	r.Course = toTrue(math.Atan2(vx, vy), 0)
	return r
}
