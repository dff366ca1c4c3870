package sim_test

import (
	"dryline/sim"
	"runtime"
	"testing"

	"dryline/sim/simtest"
	"dryline/sonar"
)

// What is kept of the truth of a logged ping is what the debrief reads: some
// dozens of bytes, in a wake as well.
func TestTruthOfAPingIsSmall(t *testing.T) {
	ex := simtest.Small(t)
	ex.Sonar.Effects.Wake = sonar.Wake{Attenuation: 1, HalfLife: 60, Width: 4, Depth: 2}
	s := begin(t, ex)
	s.AttachMate()
	for !s.Done() {
		s.Advance(1000)
	}
	n := len(s.Truth.Pings)
	if n < 500 {
		t.Fatalf("%d pings logged, want hundreds", n)
	}
	held := func() float64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc)
	}
	with := held()
	*s.Truth = sim.Witness{}
	if each := (with - held()) / float64(n); each > 100 {
		t.Errorf("the truth holds %.0f bytes for each of %d logged pings, want less than 100", each, n)
	}
	runtime.KeepAlive(s)
}
