package pingfile

import (
	"io"
	"math/rand/v2"
	"runtime"
	"testing"

	"dryline/sim"
	"dryline/sim/product"
	"dryline/sim/product/folder"
	"dryline/sim/record"
	"dryline/sim/simtest"
	"dryline/sim/survey"
	"dryline/sonar"
)

// sink counts what is written, and asks for the memory that is in use every so often.
type sink struct {
	product.Sink
	look  func()
	bytes int64
}

func (s *sink) Write(_ string, write func(io.Writer) error) error { return write((*counted)(s)) }
func (s *sink) Files() []folder.Entry                             { return nil }

type counted sink

func (c *counted) Write(p []byte) (int, error) {
	const every = 1 << 20
	if c.bytes/every != (c.bytes+int64(len(p)))/every {
		c.look()
	}
	c.bytes += int64(len(p))
	return len(p), nil
}

// A line of any length takes the same memory to write, in either format, and under 100 MB:
// ten times as many pings of default size, which come to 100 MB a channel, take no more
// than 4 MB more.
func TestALongLineTakesNoMoreMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("writes 100 MB")
	}
	for name, formats := range map[string]Formats{"netCDF": {NetCDF: true}, "Zarr": {Zarr: true}} {
		most := func(pings int) (memory, written int64) {
			ex := simtest.Small(t)
			ex.Sonar.Samples = 2000
			s, err := sim.New(ex, 1)
			if err != nil {
				t.Fatal(err)
			}
			var before, now runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&before)
			look := func() {
				runtime.GC()
				runtime.ReadMemStats(&now)
				memory = max(memory, int64(now.HeapAlloc)-int64(before.HeapAlloc))
			}
			to := &sink{look: look}
			w := Attach(s, to, formats, func() (record.Backing, error) { return record.OnDisk(t.TempDir()) })
			if err := w.open("L1"); err != nil {
				t.Fatal(err)
			}
			labels, samples := make([]sonar.Label, 2000), make([]uint16, 2000)
			for k := range labels {
				labels[k] = sonar.Label{Kind: sonar.FloorLabel, Class: 1, Ground: float32(k) / 40}
			}
			noise := rand.New(rand.NewPCG(1, 2))
			for n := range pings {
				for k := range samples { // nothing that could be packed well
					samples[k] = uint16(noise.Uint32()) >> 4
				}
				p := &sim.Ping{Ping: survey.Ping{Number: uint64(n), Port: [][]uint16{samples}, Starboard: [][]uint16{samples}, Fix: survey.Fix{Time: float64(n) / 10}}, Line: "L1",
					Truth: &sim.PingTruth{Labels: [2][]sonar.Label{labels, labels}}}
				if err := w.add(p); err != nil {
					t.Fatal(err)
				}
				if n%300 == 299 {
					look()
				}
			}
			if err := w.close(); err != nil {
				t.Fatal(err)
			}
			return memory, to.bytes
		}
		short, _ := most(310)
		long, written := most(3100)
		t.Logf("%s: %.1f MB in use for 310 pings, %.1f MB for 3100, which are %.1f MB written", name, float64(short)/1e6, float64(long)/1e6, float64(written)/1e6)
		if long > short+4e6 || long > 100e6 {
			t.Errorf("%s: %.1f MB in use for 310 pings, %.1f MB for 3100", name, float64(short)/1e6, float64(long)/1e6)
		}
		if written < 10e6 {
			t.Errorf("%d bytes are no long line", written)
		}
	}
}
