package sim

import (
	"fmt"

	"dryline/sim/survey"
)

// farthest is how far from the origin of the grid a contact may be, metres.
const farthest = 1e5

// checkGround refuses points that lie nowhere near the survey.
func (c Command) checkGround() error {
	for _, v := range []float64{c.X, c.Y, c.X2, c.Y2} {
		if v < -farthest || v > farthest {
			return fmt.Errorf("%s: %g m is nowhere near (want within %g m)", c.Do, v, farthest)
		}
	}
	return nil
}

// workContacts carries out a command about the desk's contacts. What the desk
// knows then is everything up to this tick, however the ticks were grouped.
func (s *Session) workContacts(c Command) error {
	s.develop()
	return c.workContacts(s.Desk, s.Now())
}

func (c Command) workContacts(d *survey.Desk, now float64) (err error) {
	switch c.Do {
	case Mark:
		_, err = d.Mark(c.X, c.Y, c.Ping, now)
	case Measure:
		err = d.Measure(c.Number, survey.Extent(c.Text), c.X, c.Y, c.X2, c.Y2, c.Ping)
	case NameContact:
		err = d.Rename(c.Number, c.Text)
	case ClassContact:
		err = d.Classify(c.Number, survey.Class(c.Text))
	case DeleteContact:
		err = d.Delete(c.Number)
	case UndoContact:
		err = d.Undo()
	case RedoContact:
		err = d.Redo()
	case Lookout:
		d.SetLookout(c.Value == 1)
	}
	return err
}
