package nav

import "math/rand/v2"

// CounterSpec is how the cable counter lies. A wheel on the cable turns a
// little too much or too little for its diameter (Scale). Hauling under load it
// slips, so each metre hauled is counted short by Slip and the counter reads
// ever more too much as the cable is worked; paying out, the cable lies on it.
// Left out: stretch, T/(EA), which is well under the rest.
type CounterSpec struct {
	Timing
	Errors         // metres; the bias is where it was zeroed
	Scale  float64 // share read too much, 0.01 is 1 %
	Slip   float64 // metres not counted per metre hauled
}

type counter struct {
	clock
	spec *CounterSpec

	chance *rand.Rand

	was, out float64 // cable before and now, metres
	slipped  float64 // metres read too much
	zeroed   float64 // what setting it added, metres
	begun    bool
}

func newCounter(s *CounterSpec, stream streams) *counter {
	return &counter{clock: clock{timing: &s.Timing}, spec: s, chance: stream("counter")}
}

func (c *counter) read(now, _ float64, past *history, r *Reading) {
	s := c.spec
	c.was, c.out = c.out, past.ago(s.Delay).CableOut
	if c.begun {
		c.slipped += s.Slip * (1 + s.Scale) * max(c.was-c.out, 0)
	}
	c.begun = true
	if !c.speaks(now, CableCounter, r) {
		return
	}
	r.CableOut = s.spoil(c.out*(1+s.Scale)+c.slipped+c.zeroed, c.chance)
}

// set has the counter show so many metres with the cable as it is.
func (c *counter) set(shows float64) {
	s := c.spec
	c.slipped, c.zeroed = 0, shows-s.Bias-c.out*(1+s.Scale)
}
