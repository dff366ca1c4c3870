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
	chance *rand.Rand

	was, out float64 // cable before and now, metres
	slipped  float64 // metres read too much
	zeroed   float64 // what setting it added, metres
	begun    bool
}

func (c *counter) read(s *CounterSpec, now float64, past *history, r *Reading) {
	c.was, c.out = c.out, past.ago(s.Delay).CableOut
	if c.begun {
		c.slipped += s.Slip * (1 + s.Scale) * max(c.was-c.out, 0)
	}
	c.begun = true
	if !c.speaks(&s.Timing, now, CableCounter, r) {
		return
	}
	r.CableOut = s.spoil(c.out*(1+s.Scale)+c.slipped+c.zeroed, c.chance)
}

func (c *counter) set(s *CounterSpec, shows float64) {
	c.slipped, c.zeroed = 0, shows-s.Bias-c.out*(1+s.Scale)
}
