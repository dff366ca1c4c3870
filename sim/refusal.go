package sim

import (
	"errors"
	"fmt"

	"dryline/sim/survey"
)

// Refusal is why [Session.Give] would not carry out a command now, nil if it
// would. It changes nothing, so that an order can be written down before it
// takes effect and is in no log if it is refused.
func (s *Session) Refusal(c Command) error {
	if s.done {
		return errors.New("sim: the exercise is over")
	}
	if err := c.check(s.Exercise); err != nil {
		return fmt.Errorf("sim: %w", err)
	}
	if err := s.rehearse(c); err != nil {
		return fmt.Errorf("sim: %s: %w", c.Do, err)
	}
	return nil
}

// rehearse tries what [Session.carryOut] may fail in.
func (s *Session) rehearse(c Command) error {
	switch c.Do {
	case Mark, Measure, NameContact, ClassContact, DeleteContact, UndoContact, RedoContact:
		s.develop()
		return s.Desk.Rehearse(func(d *survey.Desk) error { return c.workContacts(d, s.Now()) })
	case Range:
		_, err := s.engineFor(c.Value)
		return err
	case Gain, TVG, TVGLoss:
		return s.mayAmplify()
	}
	return nil
}
