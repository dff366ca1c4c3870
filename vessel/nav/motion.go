package nav

import "math/rand/v2"

// MotionSpec is how the vessel's motion sensor lies. Left out: the slow swings
// of a heave filter in turns.
type MotionSpec struct {
	Timing
	Heave Errors // metres
	Pitch Errors // radians
	Roll  Errors // radians
}

type motion struct {
	clock
	chance *rand.Rand
}

func (m *motion) read(s *MotionSpec, now float64, past *history, r *Reading) {
	if !m.speaks(&s.Timing, now, Motion, r) {
		return
	}
	t := past.ago(s.Delay)
	r.Heave = s.Heave.spoil(t.Heave, m.chance)
	r.Pitch = s.Pitch.spoil(t.Pitch, m.chance)
	r.Roll = s.Roll.spoil(t.Roll, m.chance)
}
