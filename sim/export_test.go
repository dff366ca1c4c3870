package sim

import "math"

// Interval is the time between pings, seconds.
func (s *Session) Interval() float64 { return s.sonar.interval }

// Sent is how many pings were sent.
func (s *Session) Sent() uint64 { return s.sonar.number }

// StopPings is for tests that are about the passage alone.
func (s *Session) StopPings() { s.sonar.nextPing = math.Inf(1) }
