package trial

import (
	"math/rand/v2"
	"testing"
)

// BenchmarkSearch searches 160 pings of one side with 1500 samples.
func BenchmarkSearch(b *testing.B) {
	d := Detector{Bin: 0.05, Advance: 0.2}
	rows := speckled(rand.New(rand.NewPCG(1, 1)), searchRows, 1500, 1e6, even)
	for b.Loop() {
		d.Greatest(d.NewBlock(rows), 0, 150, searchRows, 1400)
	}
}
