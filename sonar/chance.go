package sonar

import (
	"dryline/seabed/chance"
	"dryline/sonar/lanes"
)

// source is a counter-based generator: its stream is a function of its state
// alone, so pings can be made in any order and by any goroutine.
type source struct{ state uint64 }

func (s *source) next() uint64 {
	s.state += 0x9e3779b97f4a7c15
	return chance.Mix(s.state)
}

// fill draws two numbers below lanes.FieldSteps for each sample, as [lanes.Receive] takes
// them: one of the stream does for two samples.
func (s *source) fill(draws []uint32) {
	const bits = 2 * lanes.FieldBits
	own := *s
	for k := 1; k < len(draws); k += 2 {
		x := own.next()
		draws[k-1], draws[k] = uint32(x)&(1<<bits-1), uint32(x>>bits)&(1<<bits-1)
	}
	if n := len(draws); n%2 == 1 {
		draws[n-1] = uint32(own.next()) & (1<<bits - 1)
	}
	*s = own
}
