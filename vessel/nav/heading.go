package nav

import (
	"math"
	"math/rand/v2"

	"dryline/vessel/nav/geodesy"
)

// HeadingSpec is how the vessel's heading sensor and its rate of turn lie. The
// heading follows the true one with a first-order lag T,
//
//	dh/dt = (heading - h)/T
//
// so in a steady turn it trails by rate times T. Left out: errors that depend
// on course and speed, as a gyrocompass has, and on iron, as a magnet has.
type HeadingSpec struct {
	Timing
	Errors         // radians
	Lag    float64 // T, seconds
	Turn   Errors  // of the rate of turn, radians per second
}

type heading struct {
	clock
	spec *HeadingSpec

	chance, turn *rand.Rand

	follows float64 // grid bearing, radians
	begun   bool
}

func newHeading(s *HeadingSpec, stream streams) *heading {
	return &heading{clock: clock{timing: &s.Timing}, spec: s, chance: stream("heading"), turn: stream("turn")}
}

func (h *heading) read(now, dt float64, past *history, r *Reading) {
	s := h.spec
	t := past.ago(s.Delay)
	if h.begun && s.Lag > 0 {
		h.follows += math.Remainder(t.Heading-h.follows, 2*math.Pi) * (1 - math.Exp(-dt/s.Lag))
	} else {
		h.follows, h.begun = t.Heading, true
	}
	if !h.speaks(now, Heading|RateOfTurn, r) {
		return
	}
	r.Heading = shown(h.follows, t.Convergence, s.Errors, h.chance)
	r.RateOfTurn = s.Turn.spoil(t.YawRate, h.turn)
}

// shown is a bearing as a display has it, true and rounded to its last digit.
func shown(grid, convergence float64, e Errors, chance *rand.Rand) geodesy.TrueBearing {
	return lastDigit(geodesy.GridBearing(grid+e.Bias+e.Noise*chance.NormFloat64()).True(convergence), e.Step)
}

// lastDigit rounds a bearing to a multiple of a step; 0 leaves it.
func lastDigit(b geodesy.TrueBearing, step float64) geodesy.TrueBearing {
	if step <= 0 {
		return b
	}
	b = geodesy.TrueBearing(quantise(float64(b), step))
	if b >= 2*math.Pi {
		b = 0
	}
	return b
}
