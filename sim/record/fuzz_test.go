package record

import (
	"testing"

	"dryline/sim/survey"
)

// Whatever the packed bytes are, reading them ends with an error or with pings; it
// neither panics nor takes memory without end. The checksum that would find most
// of it first is left out.
func FuzzUnpack(f *testing.F) {
	s := New(InMemory())
	made := newSpeckled(2, 100)
	for n := range uint64(3) {
		if err := s.Append(made.next(n), &made.set); err != nil {
			f.Fatal(err)
		}
	}
	f.Add(s.pings.open)
	f.Add([]byte{})
	f.Add([]byte{1, 0, 0, 0, 0, 0, 0, 0, 0, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 1})
	f.Fuzz(func(t *testing.T, packed []byte) {
		const most = 100
		r := pingReader{recorders: []*survey.Recorder{{}}, lines: 1}
		r.open(packed)
		for range most {
			if _, err := r.head(); err != nil {
				break
			}
			if err := r.samples(); err != nil {
				break
			}
			samples := 0
			for _, side := range [2][][]uint16{r.ping.Port, r.ping.Starboard} {
				for _, row := range side {
					samples += len(row)
				}
			}
			if samples > groupSamples*len(packed) {
				t.Fatalf("%d bytes gave %d samples", len(packed), samples)
			}
		}
		words := make(flat, readingWords)
		for range most {
			var err error
			if packed, err = words.readChanges(packed); err != nil {
				break
			}
		}
	})
}
