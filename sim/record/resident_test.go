package record

import (
	"io"
	"os"
	"runtime"
	"testing"

	"dryline/vessel/nav/geodesy"
)

// counted is a backing that counts what it is given and lets it go.
type counted struct{ bytes int64 }

func (c *counted) Write(p []byte) (int, error)           { c.bytes += int64(len(p)); return len(p), nil }
func (c *counted) ReadAt(_ []byte, _ int64) (int, error) { return 0, io.ErrUnexpectedEOF }
func (c *counted) Close() error                          { return nil }

// heap returns how much lives on it, bytes.
func heap() float64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc)
}

// However long a session is the store takes little memory: at most 64 MB of ten
// hours of the default sonar, two channels of 2000 samples at 15 pings a second
// (DRYLINE_LONG=1; else of ten minutes), on disk or wherever.
func TestLittleStaysInMemory(t *testing.T) {
	const most, perPing = 64e6, 2.0 * 2 * 2000 * 2
	for _, row := range []struct {
		name        string
		short, long uint64 // pings
	}{
		{"disk", 1500, 15 * 3600},
		{"counted", 15 * 600, 10 * 15 * 3600},
	} {
		t.Run(row.name, func(t *testing.T) {
			pings := row.short
			if os.Getenv("DRYLINE_LONG") == "1" {
				pings = row.long
			}
			backing := Backing(new(counted))
			if row.name == "disk" {
				var err error
				if backing, err = OnDisk(t.TempDir()); err != nil {
					t.Fatal(err)
				}
			}
			made := newSpeckled(2, 2000)
			made.next(0)
			before := heap()
			s := New(backing)
			defer s.Close()
			for n := range pings {
				if n%9000 == 0 {
					s.StartLine("L", geodesy.Track{BY: 1000})
				}
				// The same samples every time: drawing them would take longer than all else.
				made.ping.Number, made.ping.Fix.Time = n, float64(n)/15
				if err := s.Append(&made.ping, &made.set); err != nil {
					t.Fatal(err)
				}
				if err := s.Read(reading(float64(n+1) / 15)); err != nil {
					t.Fatal(err)
				}
			}
			held := heap() - before
			t.Logf("%d pings, %.1f MB of samples: %.1f MB packed (%.1f %%), %.2f MB in memory",
				pings, float64(pings)*perPing/1e6, float64(s.size)/1e6, 100*float64(s.size)/float64(pings)/perPing, held/1e6)
			// What is in memory grows by the index alone: some bytes a ping.
			if held > most || held > 1e6+8*float64(pings) {
				t.Errorf("%.1f MB stay in memory for %d pings", held/1e6, pings)
			}
			runtime.KeepAlive(s)
		})
	}
}
