package sim_test

import (
	"math/rand/v2"
	"sync"
	"testing"

	"dryline/sim"
	"dryline/sim/order"
	"dryline/sim/simtest"

	"github.com/google/go-cmp/cmp"
)

// kept is a record in memory.
type kept struct {
	pings map[uint64][2][][]uint16
	mu    sync.Mutex
	given int
}

func keep(s *session) *kept {
	k := &kept{pings: map[uint64][2][][]uint16{}}
	s.Observe(sim.Observer{Ping: func(p *sim.Ping) {
		var ping [2][][]uint16
		for side, channels := range [2][][]uint16{p.Port, p.Starboard} {
			for _, samples := range channels {
				ping[side] = append(ping[side], append([]uint16(nil), samples...))
			}
		}
		k.pings[p.Number] = ping
	}})
	return k
}

// Samples implements [sim.Recorded].
func (k *kept) Samples(number uint64, into [2][][]uint16) bool {
	ping, ok := k.pings[number]
	if !ok {
		return false
	}
	for side := range into {
		for c := range into[side] {
			copy(into[side][c], ping[side][c])
		}
	}
	k.mu.Lock()
	k.given++
	k.mu.Unlock()
	return true
}

// Split at any tick, flown again to there by the record and on from there, on any
// number of cores, a session comes to the same bytes.
func TestFlownAgainToAnyMoment(t *testing.T) {
	ex := simtest.Rough(t)
	ex.Plan.Altitude, ex.Plan.AltitudeBand = 5, 0.3
	straight := begin(t, ex)
	record := keep(straight)
	straight.AttachMate()
	marked := false
	for !straight.Done() {
		straight.Advance(100)
		if straight.Ticks() >= 1500 && !marked {
			marked = true
			must(t, straight, order.Command{Do: order.Mark, X: 130, Y: 300})
		}
	}
	random := rand.New(rand.NewPCG(7, 7))
	last := straight.Ticks()
	for _, split := range []int64{0, 1, random.Int64N(last), random.Int64N(last), last - 1} {
		again := begin(t, ex)
		again.Workers = 1 + random.IntN(3)
		record.given = 0
		if err := again.Refly(straight.Commands, split, record); err != nil {
			t.Fatal(err)
		}
		if again.Ticks() != split || uint64(record.given) != again.Sent() {
			t.Fatalf("split at %d: stands at %d, %d of %d pings from the record", split, again.Ticks(), record.given, again.Sent())
		}
		before := again.Sent()
		var rest []order.Command
		for _, c := range straight.Commands {
			if c.Tick > split {
				rest = append(rest, c)
			}
		}
		if err := again.Follow(rest, last, nil); err != nil {
			t.Fatal(err)
		}
		again.Truth.Adopt(straight.Truth, before)
		same(t, "flown again", straight, again)
		if d := cmp.Diff(straight.Truth.Seen, again.Truth.Seen); d != "" {
			t.Errorf("split at %d: sights differ:\n%s", split, d)
		}
	}
}

// How long it takes to be back at the end of the small exercise: by the record, and
// by making every ping.
func BenchmarkRefly(b *testing.B) {
	ex := simtest.Small(b)
	straight := begin(b, ex)
	record := keep(straight)
	straight.AttachMate()
	for !straight.Done() {
		straight.Advance(1000)
	}
	for name, r := range map[string]sim.Recorded{"by the record": record, "anew": nil} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				again := begin(b, ex)
				if err := again.Refly(straight.Commands, straight.Ticks(), r); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
