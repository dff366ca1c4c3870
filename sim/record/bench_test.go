package record

import "testing"

// The price of a ping of the default sonar: two channels of 2000 samples, both
// sides, packed and written to a file.
func BenchmarkAppend(b *testing.B) {
	backing, err := OnDisk(b.TempDir())
	if err != nil {
		b.Fatal(err)
	}
	s := New(backing)
	defer s.Close()
	made := newSpeckled(2, 2000)
	made.next(0)
	b.SetBytes(2 * 2 * 2000 * 2)
	b.ReportAllocs()
	for n := uint64(0); b.Loop(); n++ {
		made.ping.Number = n
		if err := s.Append(&made.ping, &made.set); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAppendSamplesOnly(b *testing.B) {
	made := newSpeckled(2, 2000)
	made.next(0)
	var dst []byte
	b.SetBytes(2 * 2 * 2000 * 2)
	for b.Loop() {
		dst = appendRows(dst[:0], made.ping.Port, made.ping.Starboard)
	}
	b.ReportMetric(float64(len(dst))/(2*2*2000*2)*100, "%size")
}

func BenchmarkReadAll(b *testing.B) {
	s := New(InMemory())
	made := newSpeckled(2, 2000)
	made.next(0)
	const pings = 200
	for n := range uint64(pings) {
		made.ping.Number = n
		if err := s.Append(&made.ping, &made.set); err != nil {
			b.Fatal(err)
		}
	}
	b.SetBytes(pings * 2 * 2 * 2000 * 2)
	for b.Loop() {
		for _, err := range s.All() {
			if err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkOnePing(b *testing.B) {
	s := New(InMemory())
	made := newSpeckled(2, 2000)
	made.next(0)
	for n := range uint64(1000) {
		made.ping.Number = n
		if err := s.Append(&made.ping, &made.set); err != nil {
			b.Fatal(err)
		}
	}
	for n := uint64(0); b.Loop(); n++ {
		if _, err := s.Ping(n * 7 % 1000); err != nil {
			b.Fatal(err)
		}
	}
}
