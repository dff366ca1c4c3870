package sim_test

import (
	"bytes"
	"encoding/binary"
	"testing"

	"dryline/sim"
	"dryline/sim/simtest"
	"dryline/sonar"
)

// A sparse session makes the pings that were asked for as a whole one makes them, to the
// byte, flies as it flies, and makes no others.
func TestSparsePingsAreThoseOfTheWholeRun(t *testing.T) {
	flown := func(wanted func(uint64, *sonar.Pose) bool) (rows map[uint64][]byte, all int, digest [3]float64) {
		s, err := sim.New(simtest.Small(t), 3)
		if err != nil {
			t.Fatal(err)
		}
		if wanted != nil {
			s.Sparse(wanted)
		}
		s.AttachMate()
		rows = map[uint64][]byte{}
		s.Observe(sim.Observer{Ping: func(p *sim.Ping) {
			all++
			if p.Port == nil {
				return
			}
			var b bytes.Buffer
			for c := range p.Port {
				binary.Write(&b, binary.LittleEndian, p.Port[c])
				binary.Write(&b, binary.LittleEndian, p.Starboard[c])
			}
			rows[p.Number] = append(b.Bytes(), p.Line...)
		}})
		s.Advance(1500)
		scene := s.Scene()
		return rows, all, [3]float64{scene.FishX, scene.FishY, scene.FishZ}
	}
	whole, n, at := flown(nil)
	pick := func(number uint64, _ *sonar.Pose) bool { return number%37 == 5 || number > 600 && number < 640 }
	some, m, there := flown(pick)
	if n != m || at != there {
		t.Errorf("%d pings fell due and the fish is at %v; in the whole run %d and %v", m, there, n, at)
	}
	if len(some) < 50 || len(some) > 120 || len(whole) != n {
		t.Fatalf("%d of %d pings made", len(some), len(whole))
	}
	for number, row := range some {
		if !pick(number, nil) {
			t.Errorf("ping %d was made and nobody asked", number)
		}
		if !bytes.Equal(row, whole[number]) {
			t.Errorf("ping %d is another", number)
		}
	}
}
