package order

import (
	"fmt"
	"slices"

	"dryline/sim/exercise"
	"dryline/vessel"
)

// whole is for orders that take the command as it is.
func whole(c *Command) *Command { return c }

// helm is a row that the helm keeps to.
func helm(do Do, says string, check func(*exercise.Brief, *Command) error) Row {
	return rowOf(do, says, whole, check, nil, func(s Ship, c *Command) error {
		s.Steer(*c)
		return nil
	})
}

func lineIsThere(b *exercise.Brief, c *Command) error {
	if _, there := b.Line(c.Line); !there {
		return fmt.Errorf("no line is called %q", c.Line)
	}
	return nil
}

func turnIsOne(b *exercise.Brief, c *Command) error {
	if err := lineIsThere(b, c); err != nil {
		return err
	}
	if !slices.Contains(vessel.Turns(), c.Pattern) {
		return fmt.Errorf("%q is no way round (want one of %v)", c.Pattern, vessel.Turns())
	}
	return nil
}

func openLine(s Ship, c *Command) error {
	s.OpenLine(c.Line, c.Reversed)
	return nil
}

func closeLine(s Ship, _ *Command) error {
	s.CloseLine()
	return nil
}

func finish(s Ship, _ *Command) error {
	s.Finish()
	return nil
}
