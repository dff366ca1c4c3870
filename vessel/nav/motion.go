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
	spec *MotionSpec

	chance *rand.Rand
}

func newMotion(s *MotionSpec, stream streams) *motion {
	return &motion{clock: clock{timing: &s.Timing}, spec: s, chance: stream("motion")}
}

func (m *motion) read(now, _ float64, past *history, r *Reading) {
	s := m.spec
	if !m.speaks(now, Motion, r) {
		return
	}
	t := past.ago(s.Delay)
	r.Heave = s.Heave.spoil(t.Heave, m.chance)
	r.Pitch = s.Pitch.spoil(t.Pitch, m.chance)
	r.Roll = s.Roll.spoil(t.Roll, m.chance)
}
