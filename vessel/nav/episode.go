package nav

import (
	"math"
	"math/rand/v2"
)

// EpisodeSpec is something that befalls an instrument now and then: it begins
// at random, Rate times a second on average while it is not on, and lasts an
// exponentially distributed time, so that it is a two-state Markov process (a
// random telegraph signal; Papoulis, Probability, Random Variables, and
// Stochastic Processes, 1991) that is on Rate*Mean/(1+Rate*Mean) of the time.
type EpisodeSpec struct {
	Rate float64 // beginnings per second
	Mean float64 // duration, seconds
}

type episode struct {
	chance *rand.Rand
	on     bool
}

// step carries on for dt seconds and reports whether it is on at their end and
// whether it was not before. The chances are those of the process seen every
// dt, whatever dt.
func (e *episode) step(s EpisodeSpec, dt float64) (on, began bool) {
	if s.Rate <= 0 || s.Mean <= 0 {
		return false, false
	}
	sum := s.Rate + 1/s.Mean
	settled := 1 - math.Exp(-sum*dt)
	u := e.chance.Float64()
	switch {
	case e.on:
		e.on = u >= settled/s.Mean/sum
	case u < settled*s.Rate/sum:
		e.on, began = true, true
	}
	return e.on, began
}
