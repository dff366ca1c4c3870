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
	chance, tilt *rand.Rand
}

func (c *compass) read(s *CompassSpec, now float64, past *history, r *Reading) {
	if !c.speaks(&s.Timing, now, FishAttitude, r) {
		return
	}
	t := past.ago(s.Delay)
	r.FishHeading = shown(t.FishHeading, t.Convergence, s.Errors, c.chance)
	r.FishPitch = s.Pitch.spoil(t.FishPitch, c.tilt)
	r.FishRoll = s.Roll.spoil(t.FishRoll, c.tilt)
}
