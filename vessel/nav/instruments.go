package nav

import (
	"math/rand/v2"

	"dryline/seabed/chance"
)

// Instruments turns truth into readings.
type Instruments struct {
	spec    Spec
	past    history
	reading Reading // what the displays hold

	gnss      gnss
	heading   heading
	motion    motion
	depth     depth
	altimeter altimeter
	compass   compass
	counter   counter
	beacon    beacon
	speedLog  speedLog
	wind      wind
}

// New starts the instruments on their own streams of the exercise seed.
func New(spec Spec, seed uint64) *Instruments {
	stream := func(name string) *rand.Rand { return chance.Stream(seed, "nav/"+name) }
	n := &Instruments{spec: spec}
	n.gnss = gnss{chance: stream("gnss"), velocity: stream("speed"), sky: stream("sky")}
	n.heading = heading{chance: stream("heading"), turn: stream("turn")}
	n.motion = motion{chance: stream("motion")}
	n.depth = depth{chance: stream("depth"), calibration: stream("depth/calibration").NormFloat64()}
	n.altimeter = altimeter{
		chance: stream("altimeter"), share: stream("altimeter/share"),
		dropOut: episode{chance: stream("altimeter/dropout")}, falseLock: episode{chance: stream("altimeter/falselock")},
	}
	n.compass = compass{chance: stream("compass"), tilt: stream("tilt")}
	n.counter = counter{chance: stream("counter")}
	n.beacon = beacon{chance: stream("beacon"), replies: stream("beacon/replies"), outliers: stream("beacon/outliers")}
	n.speedLog = speedLog{chance: stream("log")}
	n.wind = wind{chance: stream("wind")}
	return n
}

// Read takes a reading dt seconds after the last; dt is the same every time.
func (n *Instruments) Read(now, dt float64, t Truth) Reading {
	n.past.add(dt, n.spec.deepest(), &t)
	r, s := &n.reading, &n.spec
	r.Time, r.Fresh, r.Convergence = now, 0, t.Convergence
	n.heading.read(&s.Heading, now, dt, &n.past, r)
	n.gnss.read(&s.GNSS, now, &n.past, r)
	n.motion.read(&s.Motion, now, &n.past, r)
	n.counter.read(&s.Counter, now, &n.past, r)
	n.depth.read(&s.FishDepth, now, &n.past, r)
	n.altimeter.read(&s.Altimeter, now, dt, &n.past, r)
	n.compass.read(&s.Compass, now, &n.past, r)
	n.speedLog.read(&s.SpeedLog, now, &n.past, r)
	n.wind.read(&s.Wind, now, &n.past, r)
	n.beacon.read(&s.Beacon, now, &n.past, r)
	return *r
}

// ZeroCounter sets the cable counter to show so many metres of cable with the
// cable as it is now, forgetting what it has slipped. A winch man who zeroes it
// with the fish at the water line rather than at the sheave leaves it reading
// short by the height of the sheave.
func (n *Instruments) ZeroCounter(shows float64) { n.counter.set(&n.spec.Counter, shows) }
