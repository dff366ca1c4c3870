package sonar

import (
	"math"
	"math/bits"

	"dryline/sim/chance"
)

// source is a counter-based generator: its stream is a function of its state
// alone, so pings can be made in any order and by any goroutine.
type source struct {
	state uint64
	word  uint64 // the last draw, two exponentials' worth
}

func (s *source) next() {
	s.state += 0x9e3779b97f4a7c15
	s.word = chance.Mix(s.state)
}

// unit draws from 0..1.
func (s *source) unit() float64 {
	s.next()
	return float64(s.word>>11) / (1 << 53)
}

const logSteps = 1 << 12

// logTable holds ln(1+f) in the middle of each step of f in 0..1.
var logTable = func() (t [logSteps]float32) {
	for i := range t {
		t[i] = float32(math.Log1p((float64(i) + 0.5) / logSteps))
	}
	return t
}()

// exponential returns an exponential variate of mean one from the low (0) or
// high (1) half of the last word.
//
// With u = 2^-(n+1) (1+f), -ln u = (n+1) ln 2 - ln(1+f): n counts leading
// zeros, f comes from the low bits through a table. The result is on a grid
// of 1/4096 in f, finer than any sample can show, and reaches 21 ln 2 = 14.6,
// beyond which lies one in two million.
func (s *source) exponential(half int) float32 {
	w := uint32(s.word >> (32 * half))
	n := bits.LeadingZeros32(w | logSteps - 1) // at most 20 zeros
	return float32(n+1)*math.Ln2 - logTable[w&(logSteps-1)]
}
