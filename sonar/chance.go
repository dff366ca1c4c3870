package sonar

import "dryline/seabed/chance"

// source is a counter-based generator: its stream is a function of its state
// alone, so pings can be made in any order and by any goroutine.
type source struct{ state uint64 }

func (s *source) next() uint64 {
	s.state += 0x9e3779b97f4a7c15
	return chance.Mix(s.state)
}
