package nav

import "math/rand/v2"

// AltimeterSpec is how the fish's altimeter lies. It loses the bottom now and
// then, and says so; now and then it locks on something in the water and does
// not say so, reading the same share of the true altitude until it lets go. What
// does lie in the way, a school of fish, it takes for the floor. Out of its reach
// it has nothing to say. Left out: slopes and soft bottoms, and the wash of the
// vessel, which a fish in it meets by chance alone.
type AltimeterSpec struct {
	Timing
	Errors            // metres
	Min, Max  float64 // reach, metres; Max 0 is without end
	DropOut   EpisodeSpec
	FalseLock EpisodeSpec
}

// A false lock is on something between these shares of the altitude (our own
// choice).
const nearestLock, farthestLock = 0.2, 0.8

type altimeter struct {
	clock
	spec *AltimeterSpec

	chance, share      *rand.Rand
	dropOut, falseLock episode

	locked float64 // share of the altitude
	last   float64 // time of the last report
}

func newAltimeter(s *AltimeterSpec, stream streams) *altimeter {
	return &altimeter{
		clock: clock{timing: &s.Timing}, spec: s,
		chance: stream("altimeter"), share: stream("altimeter/share"),
		dropOut: episode{chance: stream("altimeter/dropout")}, falseLock: episode{chance: stream("altimeter/falselock")},
	}
}

func (a *altimeter) read(now, dt float64, past *history, r *Reading) {
	s := a.spec
	if !a.speaks(now, FishAltitude, r) {
		return
	}
	since := dt
	if a.last > 0 {
		since = now - a.last
	}
	a.last = now
	truth := past.ago(s.Delay)
	altitude := truth.FishAltitude
	if truth.InTheWay > 0 {
		altitude = min(altitude, truth.InTheWay)
	}
	lost, _ := a.dropOut.step(s.DropOut, since)
	deceived, began := a.falseLock.step(s.FalseLock, since)
	if began {
		a.locked = nearestLock + (farthestLock-nearestLock)*a.share.Float64()
	}
	if deceived {
		altitude *= a.locked
	}
	altitude = max(s.spoil(altitude, a.chance), 0)
	ok := !lost && altitude >= s.Min && (s.Max <= 0 || altitude <= s.Max)
	if ok {
		r.FishAltitude = altitude
	}
	r.Valid.put(FishAltitude, ok)
}
