package order

import (
	"fmt"
	"slices"

	"dryline/sim/exercise"
	"dryline/sim/survey"
)

func value(c *Command) float64 { return c.Value }

// within refuses a value out of range, in the unit of its command.
func within(v, low, high float64) error {
	if v < low || v > high {
		return fmt.Errorf("%g is out of range (want %.4g to %.4g)", v, low, high)
	}
	return nil
}

func fixed(low, high float64) func(*exercise.Brief) (float64, float64) {
	return func(*exercise.Brief) (float64, float64) { return low, high }
}

// number is a row with a value between limits.
func number(do Do, says string, limits func(*exercise.Brief) (low, high float64), set func(Ship, float64)) Row {
	r := rowOf(do, says, value,
		func(b *exercise.Brief, v float64) error {
			low, high := limits(b)
			return within(v, low, high)
		}, nil,
		func(s Ship, v float64) error {
			set(s, v)
			return nil
		})
	r.limits = limits
	return r
}

// Limits are the least and the greatest value of an order that sets a number, in the unit
// of its row; ok is false for others.
func Limits(b *exercise.Brief, do Do) (low, high float64, ok bool) {
	r := rows[do]
	if r == nil || r.limits == nil {
		return 0, 0, false
	}
	low, high = r.limits(b)
	return low, high, true
}

// setting is a row that sets a number of the desk.
func setting(do Do, says string, low, high float64, of func(*survey.Settings) *float64) Row {
	return number(do, says, fixed(low, high), func(s Ship, v float64) {
		s.AdjustDesk(func(set *survey.Settings) { *of(set) = v })
	})
}

func method(c *Command) survey.Position { return c.Method }

func methodIsOne(b *exercise.Brief, m survey.Position) error {
	if !slices.Contains(survey.Positions(), m) {
		return fmt.Errorf("%q is no method (want one of %v)", m, survey.Positions())
	}
	if m.NeedsBeacon() && !b.Beacon {
		return fmt.Errorf("%s needs a beacon, and none is fitted", m)
	}
	return nil
}

func placeBy(s Ship, m survey.Position) error {
	s.AdjustDesk(func(set *survey.Settings) { set.Position = m })
	return nil
}

func zeroOrOne(_ *exercise.Brief, v float64) error {
	if v != 0 && v != 1 {
		return fmt.Errorf("%g is neither 0 nor 1", v)
	}
	return nil
}

func keepLookout(s Ship, v float64) error {
	return s.Contacts(false, func(d *survey.Desk, _ float64) error {
		d.SetLookout(v == 1)
		return nil
	})
}
