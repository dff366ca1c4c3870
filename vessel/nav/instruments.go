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

	all     []instrument // in the order they speak
	counter *counter
}

// instrument speaks when it is due.
type instrument interface {
	// read puts what there is to say at a tick, dt seconds after the last, on the
	// displays.
	read(now, dt float64, past *history, r *Reading)
	// delay is how long ago what it speaks of was, seconds.
	delay() float64
}

// streams gives an instrument its streams of chance by name.
type streams func(name string) *rand.Rand

// New starts the instruments on their own streams of the exercise seed.
func New(spec Spec, seed uint64) *Instruments {
	stream := func(name string) *rand.Rand { return chance.Stream(seed, "nav/"+name) }
	n := &Instruments{spec: spec}
	s := &n.spec
	n.counter = newCounter(&s.Counter, stream)
	// Who works a value out from other displays speaks after them.
	n.all = []instrument{
		newHeading(&s.Heading, stream),
		newGNSS(&s.GNSS, stream),
		newMotion(&s.Motion, stream),
		n.counter,
		newDepth(&s.FishDepth, stream),
		newAltimeter(&s.Altimeter, stream),
		newCompass(&s.Compass, stream),
		newSpeedLog(&s.SpeedLog, stream),
		newWind(&s.Wind, stream),
		newBeacon(&s.Beacon, stream),
	}
	for _, i := range n.all {
		n.past.deepest = max(n.past.deepest, i.delay())
	}
	return n
}

// Read takes a reading dt seconds after the last; dt is the same every time.
func (n *Instruments) Read(now, dt float64, t Truth) Reading {
	n.past.add(dt, &t)
	r := &n.reading
	r.Time, r.Fresh, r.Convergence = now, 0, t.Convergence
	for _, i := range n.all {
		i.read(now, dt, &n.past, r)
	}
	return *r
}

// ZeroCounter sets the cable counter to show so many metres of cable with the
// cable as it is now, forgetting what it has slipped. A winch man who zeroes it
// with the fish at the water line rather than at the sheave leaves it reading
// short by the height of the sheave.
func (n *Instruments) ZeroCounter(shows float64) { n.counter.set(shows) }
