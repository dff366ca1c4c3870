package main

import (
	"runtime"
	"testing"

	"dryline/scenarios"
	"dryline/sim"
)

// BenchmarkWholeRun flies the default exercise from its first tick to its last,
// desk and contacts included, and reports simulated seconds per second.
func BenchmarkWholeRun(b *testing.B) {
	for _, bench := range []struct {
		name    string
		workers int
	}{{"one core", 1}, {"all cores", runtime.NumCPU()}} {
		b.Run(bench.name, func(b *testing.B) {
			old := runtime.GOMAXPROCS(bench.workers)
			defer runtime.GOMAXPROCS(old)
			simulated := 0.0
			var peak uint64
			for b.Loop() {
				ex, err := scenarios.Find(scenarios.Default)
				if err != nil {
					b.Fatal(err)
				}
				s, err := sim.New(ex, ex.Seed)
				if err != nil {
					b.Fatal(err)
				}
				sim.Attend(s)
				s.AttachMate()
				for !s.Done() {
					s.Advance(600)
					var m runtime.MemStats
					runtime.ReadMemStats(&m)
					peak = max(peak, m.HeapSys)
				}
				simulated += s.Now()
			}
			b.ReportMetric(simulated/b.Elapsed().Seconds(), "simulated_s/s")
			b.ReportMetric(float64(peak)/1e6, "heap_MB")
		})
	}
}
