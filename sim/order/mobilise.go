package order

import (
	"slices"

	"dryline/sim/exercise"
	"dryline/sim/survey"
)

// mobilised is a row that enters a number of the desk before the watch begins; its bounds
// are those by which the survey can be worked up again.
func mobilised(do Do, says string, k survey.Knob, of func(*survey.Settings) *float64) Row {
	low, high := k.Limits()
	enter := func(v float64) func(*survey.Settings) {
		return func(set *survey.Settings) { *of(set) = v }
	}
	return rowOf(do, says+"; before the first tick", value,
		func(_ *exercise.Brief, v float64) error { return within(v, low, high) },
		func(s Ship, v float64) error { return s.RefuseMobilise(enter(v)) },
		func(s Ship, v float64) error {
			s.Mobilise(enter(v))
			return nil
		}).between(fixed(low, high))
}

func paintedIsThere(b *exercise.Brief, c *Command) error { return channelIsThere(b, c.Text) }

// painted enters the channel that is painted.
func painted(s Ship, c *Command) func(*survey.Settings) {
	i := slices.Index(s.Channels(), c.Text)
	return func(set *survey.Settings) { set.MosaicChannel = i }
}

func refusePainted(s Ship, c *Command) error { return s.RefuseMobilise(painted(s, c)) }

func paint(s Ship, c *Command) error {
	s.Mobilise(painted(s, c))
	return nil
}
