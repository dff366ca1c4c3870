package main

import (
	"path/filepath"
	"runtime"
	"testing"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/dataset/pingfile"
	"dryline/sim/product/folder"
	"dryline/sim/record"
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

// BenchmarkRawPings flies the first exercise on one core: plain, with labels, and with
// labelled pings written as netCDF or as Zarr. Compare what was run in turns, such as by -count 5
// -benchtime 1x.
func BenchmarkRawPings(b *testing.B) {
	for _, bench := range []struct {
		name    string
		labels  bool
		formats pingfile.Formats
	}{{"plain", false, pingfile.Formats{}}, {"labels", true, pingfile.Formats{}}, {"netcdf", true, pingfile.Formats{NetCDF: true}}, {"zarr", true, pingfile.Formats{Zarr: true}}} {
		b.Run(bench.name, func(b *testing.B) {
			for b.Loop() {
				ex, err := scenarios.Find("first-line")
				if err != nil {
					b.Fatal(err)
				}
				s, err := sim.New(ex, ex.Seed)
				if err != nil {
					b.Fatal(err)
				}
				s.Workers = 1
				s.AttachMate()
				s.Desk.Unpainted, s.Desk.KeepRows = true, func(int) bool { return false }
				s.Observe(sim.Observer{Truth: true, Labels: bench.labels, Ping: func(*sim.Ping) {}})
				to, err := folder.New(filepath.Join(b.TempDir(), "out"), false)
				if err != nil {
					b.Fatal(err)
				}
				if bench.formats != (pingfile.Formats{}) {
					pingfile.Attach(s, to, bench.formats, func() (record.Backing, error) { return record.OnDisk("") })
				}
				for !s.Done() {
					s.Advance(100)
				}
				to.Abandon()
			}
		})
	}
}
