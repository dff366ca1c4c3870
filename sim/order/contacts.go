package order

import (
	"fmt"

	"dryline/sim/exercise"
	"dryline/sim/survey"
)

// contact is a row about the desk's contacts, or other work of the desk that can be rehearsed. What the desk knows then is
// everything up to the tick, however the ticks were grouped.
func contact(do Do, says string, check func(*exercise.Brief, *Command) error, work func(d *survey.Desk, c *Command, now float64) error) Row {
	on := func(rehearse bool) func(Ship, *Command) error {
		return func(s Ship, c *Command) error {
			return s.Contacts(rehearse, func(d *survey.Desk, now float64) error { return work(d, c, now) })
		}
	}
	return rowOf(do, says, whole, check, on(true), on(false)).atDesk().later()
}

// farthest is how far from the origin of the grid a contact may be, metres.
const farthest = 1e5

// isNear refuses points that lie nowhere near the survey.
func isNear(_ *exercise.Brief, c *Command) error {
	for _, v := range []float64{c.X, c.Y, c.X2, c.Y2} {
		if v < -farthest || v > farthest {
			return fmt.Errorf("%g m is nowhere near (want within %g m)", v, farthest)
		}
	}
	return nil
}

// coarsest is the largest pixel a measure may be taken on, metres.
const coarsest = 100.0

func measuredOn(b *exercise.Brief, c *Command) error {
	if err := isNear(b, c); err != nil {
		return err
	}
	if err := within(c.Value, 0, coarsest); err != nil {
		return fmt.Errorf("pixels: %w", err)
	}
	return nil
}
