package sim

import (
	"fmt"

	"dryline/sim/survey"
)

// RefuseMobilise implements [order.Ship].
func (h ship) RefuseMobilise(change func(*survey.Settings)) error {
	if err := h.Passage.RefuseMobilise(change); err != nil {
		return err
	}
	ex := *h.s.Exercise
	change(&ex.Desk)
	if took := MemoryOf(&ex, ex.Sonar.RangeScale).Over(ex.Plan.TimeLimit); took > MostMemory {
		return fmt.Errorf("the exercise may take %.1f GB of memory with that (want at most %g)", took/1e9, MostMemory/1e9)
	}
	_, err := newEngine(&ex, h.s.world, ex.Sonar.RangeScale, ex.Sonar.Channels, h.s.Seeds.Sonar)
	return err
}

// Mobilise implements [order.Ship]. Everything is as if the exercise had been given like
// this; what was ordered of the sonar before stands.
func (h ship) Mobilise(change func(*survey.Settings)) {
	s := h.s
	h.Passage.Mobilise(change)
	s.Exercise.Mobilise(change)
	change(&s.Brief.Desk)
	engine, err := s.engineAt(s.Desk.Recorder.RangeScale)
	if err != nil {
		return // it was asked before and did not refuse
	}
	s.fit(engine)
	if priors, err := priorsOf(engine); err == nil {
		s.priors = priors
	}
	s.Desk.Mobilise(func(set *survey.Settings) {
		change(set)
		*set = anchored(s.Exercise, *set)
	}, beamsOf(s.Exercise), s.priors...)
}
