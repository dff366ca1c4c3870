package sim

import "fmt"

// Replay gives the session the commands of a log at their ticks and steps it
// to the log's end. between, if not nil, is called from time to time; it stops
// the replay by returning false.
func (s *Session) Replay(l *Log, between func() bool) error {
	s.Attempt, s.origin = l.Attempt, l.origin
	return s.Follow(l.Commands, l.Ticks, between)
}

// Follow gives the session commands at their ticks and steps it on to a tick;
// between is that of [Session.Replay].
func (s *Session) Follow(commands []Command, end int64, between func() bool) error {
	to := func(tick int64) bool {
		for s.tick < tick && !s.done {
			if between != nil && !between() {
				return false
			}
			s.Advance(int(min(tick-s.tick, 100)))
		}
		return true
	}
	for i, c := range commands {
		if !to(c.Tick) {
			return nil
		}
		if s.done && c.Do == Finish {
			break // the time limit finished it, as it did the first time
		}
		if err := s.Give(c); err != nil {
			return fmt.Errorf("command %d at tick %d: %w", i+1, c.Tick, err)
		}
	}
	to(end)
	return nil
}

// Close ends the session where it is, for a reason: an open line is closed, as
// if the log had been switched off. It is no command and leaves none in the
// log. A session that is over stays as it ended, unless its log was cut off:
// what came after may be missing.
func (s *Session) Close(reason string) {
	if s.done {
		if reason == ReasonTruncated {
			s.ended = reason
		}
		return
	}
	if s.studio.logging {
		s.tellDesk(event{lineOff: true})
		s.studio.logging = false
	}
	s.develop()
	s.done, s.ended = true, reason
}
