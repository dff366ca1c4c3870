package order

import (
	"dryline/sonar/recorder"
	"fmt"
	"slices"

	"dryline/sim/exercise"
	"dryline/sonar"
)

// Range scales that can be set while an exercise runs, metres: our own choice.
// An exercise's own may lie beyond them and can be set again.
const (
	shortestRange = 10.0
	longestRange  = 300.0
)

// rangeIsOne refuses range scales that cannot be set: a pulse of one tone must
// not smear a tenth of the range, as in an exercise file.
func rangeIsOne(b *exercise.Brief, metres float64) error {
	own := b.Sonar.RangeScale
	low, high := rangeLimits(b)
	if err := within(metres, low, high); err != nil {
		return err
	}
	const nominal = 1500.0 // m/s
	for _, ch := range b.Sonar.Channels {
		if least := 10 * ch.PulseLength * nominal / 2; ch.Bandwidth == 0 && metres < least && metres < own {
			return fmt.Errorf("the pulse of channel %s is too long for %g m (want at least %.3g)", ch.Name, metres, least)
		}
	}
	return nil
}

func rangeLimits(b *exercise.Brief) (low, high float64) {
	own := b.Sonar.RangeScale
	return min(shortestRange, own), max(longestRange, own)
}

func setRange(s Ship, metres float64) error {
	s.SetRange(metres)
	return nil
}

// receiverValue is a number of a channel's receiver.
type receiverValue struct {
	channel string
	value   float64
}

// receiver is a row that sets how a channel is amplified; the bounds are those of
// an exercise file.
func receiver(do Do, says string, low, high float64, of func(*recorder.Receiver) *float64) Row {
	return rowOf(do, says,
		func(c *Command) receiverValue { return receiverValue{c.Text, c.Value} },
		func(b *exercise.Brief, v receiverValue) error {
			if !slices.ContainsFunc(b.Sonar.Channels, func(ch sonar.Channel) bool { return ch.Name == v.channel }) {
				return fmt.Errorf("no channel is called %q", v.channel)
			}
			return within(v.value, low, high)
		},
		func(s Ship, _ receiverValue) error { return s.RefuseReceiver() },
		func(s Ship, v receiverValue) error {
			s.SetReceiver(v.channel, func(r *recorder.Receiver) { *of(r) = v.value })
			return nil
		}).between(fixed(low, high)).atDesk()
}
