package sea

import (
	"math"
	"math/rand/v2"

	"dryline/seabed/chance"
)

// GustTick is the step of [Gust] in seconds.
const GustTick = 0.1

// Turbulence of the wind over open water. The deviations along and across the
// wind in a neutral surface layer are 2.39 and 1.92 friction velocities (H. A.
// Panofsky and J. A. Dutton, Atmospheric Turbulence, 1984); the friction
// velocity is sqrt(CD) U with CD = 0.001 (1.1 + 0.035 U), as in the Coastal
// Engineering Manual, EM 1110-2-1100, II-2. Both are from memory. At 10 m/s the
// gusts deviate by 9 %, the direction by 4 degrees.
const (
	alongDeviation  = 2.39
	acrossDeviation = 1.92
	// The length of a gust, metres: our own choice, of the order measured 10 m
	// above smooth ground. Across, isotropic turbulence has half of it.
	gustLength = 120.0
)

// Gust is a wind that varies about its mean: two Ornstein-Uhlenbeck processes,
// along and across, each with the exact step
//
//	u' = r u + sigma sqrt(1 - r^2) N ,  r = exp(-tick/tau) ,  tau = length/U
//
// on fixed ticks, with straight lines between them. Their spectrum falls as
// the square of frequency, a little faster than the 5/3 of turbulence. Left out:
// squalls, and the slow wander of the mean.
type Gust struct {
	mean, from         float64
	along, across      process
	rng                *rand.Rand
	tick               int // of the later of the two moments held
	alongWas, crossWas float64
}

// process is an Ornstein-Uhlenbeck process on ticks.
type process struct{ value, keep, kick float64 }

func newProcess(deviation, tau float64, rng *rand.Rand) process {
	keep := math.Exp(-GustTick / tau)
	return process{deviation * rng.NormFloat64(), keep, deviation * math.Sqrt(1-keep*keep)}
}

func (p *process) step(rng *rand.Rand) { p.value = p.keep*p.value + p.kick*rng.NormFloat64() }

// NewGust returns the gusts of a seed about a mean wind in m/s from a grid
// bearing. A wind of 0 stays 0.
func NewGust(mean, from float64, seed uint64) *Gust {
	g := &Gust{mean: mean, from: from}
	if mean <= 0 {
		return g
	}
	g.rng = chance.Stream(seed, "sea/gust")
	friction := math.Sqrt(0.001*(1.1+0.035*mean)) * mean
	tau := gustLength / mean
	g.along = newProcess(alongDeviation*friction, tau, g.rng)
	g.across = newProcess(acrossDeviation*friction, tau/2, g.rng)
	g.alongWas, g.crossWas = g.along.value, g.across.value
	return g
}

// At returns the wind at a time in seconds from the start: its speed in m/s and
// the grid bearing in radians it blows from. Times may not run backwards;
// how often it is asked changes nothing.
func (g *Gust) At(t float64) (speed, from float64) {
	if g.mean <= 0 {
		return 0, g.from
	}
	at := max(t, 0) / GustTick
	for float64(g.tick) < at {
		g.alongWas, g.crossWas = g.along.value, g.across.value
		g.along.step(g.rng)
		g.across.step(g.rng)
		g.tick++
	}
	w := min(max(float64(g.tick)-at, 0), 1) // share of the earlier moment
	along := g.mean + w*g.alongWas + (1-w)*g.along.value
	across := w*g.crossWas + (1-w)*g.across.value
	return math.Hypot(along, across), g.from + math.Atan2(across, along)
}
