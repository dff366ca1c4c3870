package order

import (
	"errors"
	"fmt"

	"dryline/sim/exercise"
)

// event is an event as an instructor orders it.
func event(c *Command) exercise.Event {
	return exercise.Event{Kind: exercise.Trouble(c.Text), Size: c.Value, For: c.Value2, Side: exercise.Beam(c.Number)}
}

// eventIsOne holds an event to the bounds of an exercise file.
func eventIsOne(b *exercise.Brief, e exercise.Event) error {
	if b.Help.Assessed {
		return errors.New("nobody orders one in an assessment")
	}
	kind, ok := exercise.KindOf(e.Kind)
	if !ok {
		var known []exercise.Trouble
		for _, k := range exercise.Troubles() {
			known = append(known, k.Kind)
		}
		return fmt.Errorf("no event is called %q (want one of %v)", e.Kind, known)
	}
	switch {
	case kind.Size == "" && e.Size != 0:
		return fmt.Errorf("%s has no size (want a value of 0)", e.Kind)
	case !kind.Sided && e.Side != exercise.EitherSide:
		return fmt.Errorf("%s is on no side (want a number of 0)", e.Kind)
	case e.Side < exercise.EitherSide || e.Side > exercise.StarboardSide:
		return fmt.Errorf("there is no side %d (want 0 for either, 1 port, 2 starboard)", e.Side)
	case kind.Once && e.For != 0:
		return fmt.Errorf("%s is over at once (want a value2 of 0)", e.Kind)
	}
	if err := within(e.For, 0, exercise.LongestEvent); err != nil {
		return err
	}
	if kind.Size != "" {
		return within(e.Size, kind.Least*kind.Per, kind.Most*kind.Per)
	}
	return nil
}

// beamIsOne refuses sides that there are not.
func beamIsOne(_ *exercise.Brief, side exercise.Beam) error {
	if side != exercise.PortSide && side != exercise.StarboardSide {
		return fmt.Errorf("there is no side %d (want 1 for port or 2 for starboard)", side)
	}
	return nil
}
