package sim

import (
	"bufio"
	"fmt"
	"io"

	"dryline/sim/order"
)

// Head is the head of the session's log.
func (s *Session) Head() order.Head {
	h := order.HeadOf(s.Exercise, s.Seeds, s.Attempt)
	h.Unchained = s.unchained
	return h
}

// WriteLog writes the whole log of the session.
func (s *Session) WriteLog(w io.Writer) error {
	b := bufio.NewWriter(w)
	l, err := order.NewLogWriter(b, s.Head())
	if err != nil {
		return err
	}
	for _, c := range s.Commands {
		if err := l.Command(c); err != nil {
			return err
		}
	}
	if err := l.End(s.Ticks(), s.Ended(), s.Digest()); err != nil {
		return err
	}
	return b.Flush()
}

// Replay gives the session the commands of a log at their ticks and steps it
// to the log's end. between, if not nil, is called from time to time; it stops
// the replay by returning false.
func (s *Session) Replay(l *order.Log, between func() bool) error {
	s.Attempt, s.unchained = l.Attempt, l.Unchained
	return s.Follow(l.Commands, l.Ticks, between)
}

// Follow gives the session commands at their ticks and steps it on to a tick;
// between is that of [Session.Replay].
func (s *Session) Follow(commands []order.Command, end int64, between func() bool) error {
	to := func(tick int64) bool {
		for s.Ticks() < tick && !s.Done() {
			if between != nil && !between() {
				return false
			}
			s.Advance(int(min(tick-s.Ticks(), 100)))
		}
		return true
	}
	for i, c := range commands {
		if !to(c.Tick) {
			return nil
		}
		if s.Done() && c.Do == order.Finish {
			continue // the time limit finished it, as it did the first time; the desk worked on
		}
		if err := s.Give(c); err != nil {
			return fmt.Errorf("command %d at tick %d: %w", i+1, c.Tick, err)
		}
	}
	to(end)
	return nil
}
