package nav

import "math/rand/v2"

// CompassSpec is how the fish's compass and tilt sensor lie. Left out: the
// deviation that changes with heading, and the tow cable's own magnetism.
type CompassSpec struct {
	Timing
	Errors             // of the heading, radians
	Pitch, Roll Errors // radians
}

type compass struct {
	clock
	spec *CompassSpec

	chance, tilt *rand.Rand
}

func newCompass(s *CompassSpec, stream streams) *compass {
	return &compass{clock: clock{timing: &s.Timing}, spec: s, chance: stream("compass"), tilt: stream("tilt")}
}

func (c *compass) read(now, _ float64, past *history, r *Reading) {
	s := c.spec
	if !c.speaks(now, FishAttitude, r) {
		return
	}
	t := past.ago(s.Delay)
	r.FishHeading = shown(t.FishHeading, t.Convergence, s.Errors, c.chance)
	r.FishPitch = s.Pitch.spoil(t.FishPitch, c.tilt)
	r.FishRoll = s.Roll.spoil(t.FishRoll, c.tilt)
}
