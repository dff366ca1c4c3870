package nav

import (
	"math"
	"math/rand/v2"

	"dryline/vessel/nav/geodesy"
)

// GNSSSpec is how the satellite receiver lies.
//
// The fix carries white noise and a first-order Gauss-Markov drift, which is
// the shape of GNSS errors (Parkinson and Spilker, Global Positioning System:
// Theory and Applications, 1996), and a fixed error on the grid, as a wrong
// datum or offset makes. It is where the antenna was Delay ago and carries the
// time of that moment, as a receiver stamps a fix with its epoch. Left out:
// height, a fixed error of the velocity, which is measured apart by Doppler, and
// that the error grows with the dilution of precision shown.
type GNSSSpec struct {
	Timing
	Quality      Quality // what the receiver says it has; NoFix is taken as Differential
	BiasX, BiasY float64 // fixed error east and north, metres
	Drift        float64 // standard deviation of the slow error, each axis, metres
	DriftTime    float64 // its correlation time, seconds
	Noise        float64 // standard deviation from fix to fix, each axis, metres
	Step         float64 // last digit of the position, metres
	SpeedNoise   float64 // standard deviation of the velocity, each axis, m/s
	SpeedStep    float64 // last digit of the speed, m/s
	CourseStep   float64 // last digit of the course, radians
}

// Preset is a receiver of that quality under open sky. Autonomous 1 to 3 m and
// correlated over one to ten minutes, differential 0.3 to 0.7 m as reported for
// satellite-based correction (common practice, no source); RTK 1 cm
// horizontally as makers commonly state.
func (q Quality) Preset() GNSSSpec {
	switch q {
	case Autonomous:
		return GNSSSpec{Quality: q, Drift: 1.5, DriftTime: 300, Noise: 0.15}
	case RTK:
		return GNSSSpec{Quality: q, Drift: 0.008, DriftTime: 20, Noise: 0.006}
	}
	return GNSSSpec{Quality: Differential, Drift: 0.3, DriftTime: 120, Noise: 0.05}
}

type gnss struct {
	clock
	spec *GNSSSpec

	chance, velocity, sky *rand.Rand

	driftX, driftY float64
	drifted        float64 // time of that drift
	begun          bool
	satellites     int
	skyUntil       float64
}

func newGNSS(s *GNSSSpec, stream streams) *gnss {
	return &gnss{
		clock: clock{timing: &s.Timing}, spec: s,
		chance: stream("gnss"), velocity: stream("speed"), sky: stream("sky"),
	}
}

func (g *gnss) read(now, _ float64, past *history, r *Reading) {
	ok := g.speaks(now, Fix, r)
	if !r.Fresh.Has(Fix) {
		return
	}
	if ok || !g.begun { // switched on in an outage, the displays hold a fix from before
		g.fix(now, past, r)
	}
	if !ok {
		r.Quality, r.Satellites, r.HDOP = NoFix, 0, 0
		return
	}
	g.look(now, r)
}

func (g *gnss) fix(now float64, past *history, r *Reading) {
	s, t := g.spec, past.ago(g.delay())
	g.drift(now)
	r.X = quantise(t.AntennaX+s.BiasX+g.driftX+s.Noise*g.chance.NormFloat64(), s.Step)
	r.Y = quantise(t.AntennaY+s.BiasY+g.driftY+s.Noise*g.chance.NormFloat64(), s.Step)
	vx := t.VX + s.SpeedNoise*g.velocity.NormFloat64()
	vy := t.VY + s.SpeedNoise*g.velocity.NormFloat64()
	r.SpeedOverGround = quantise(math.Hypot(vx, vy), s.SpeedStep)
	r.Course = lastDigit(geodesy.GridBearing(math.Atan2(vx, vy)).True(t.Convergence), s.CourseStep)
	r.FixTime = now - past.age(s.Delay)
}

// drift moves the slow error on to now, exactly for any time since the last.
func (g *gnss) drift(now float64) {
	s := g.spec
	if !g.begun {
		g.driftX, g.driftY = s.Drift*g.chance.NormFloat64(), s.Drift*g.chance.NormFloat64()
		g.begun = true
	} else if s.DriftTime > 0 {
		keep := math.Exp(-(now - g.drifted) / s.DriftTime)
		kick := s.Drift * math.Sqrt(1-keep*keep)
		g.driftX = keep*g.driftX + kick*g.chance.NormFloat64()
		g.driftY = keep*g.driftY + kick*g.chance.NormFloat64()
	}
	g.drifted = now
}

// look counts satellites, which rise and set. For n lines of sight spread
// evenly over the sky above the horizon the normal equations decouple and each
// horizontal axis has the variance 3/n of a range's, so that HDOP = sqrt(6/n).
func (g *gnss) look(now float64, r *Reading) {
	const (
		fewest, spread = 8, 7
		between        = 40.0 // seconds
	)
	if g.satellites == 0 || now >= g.skyUntil {
		g.satellites = fewest + g.sky.IntN(spread)
		g.skyUntil = now + between
	}
	r.Quality = g.spec.Quality
	if r.Quality == NoFix {
		r.Quality = Differential
	}
	r.Satellites = g.satellites
	r.HDOP = math.Sqrt(6 / float64(g.satellites))
}
