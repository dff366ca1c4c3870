package sim_test

import (
	"iter"
	"math/rand/v2"
	"testing"

	"dryline/sim"
	"dryline/sim/order"
	"dryline/sim/record"
	"dryline/sim/simtest"

	"github.com/google/go-cmp/cmp"
)

// counted is a store that counts the pings it gives back.
type counted struct {
	*record.Store
	given uint64
}

// Pings implements [sim.Recorded].
func (c *counted) Pings(from, to uint64) iter.Seq2[*record.Ping, error] {
	return func(yield func(*record.Ping, error) bool) {
		for p, err := range c.Store.Pings(from, to) {
			c.given++
			if !yield(p, err) {
				return
			}
		}
	}
}

// keep keeps the record of a session.
func keep(t testing.TB, s *session) *counted {
	c := &counted{Store: record.New(record.InMemory())}
	t.Cleanup(func() { c.Close() })
	sim.Keep(s.Session, c.Store)
	return c
}

// Split at any tick, flown again to there by the record and on from there, on any
// number of cores, a session comes to the same bytes.
func TestFlownAgainToAnyMoment(t *testing.T) {
	ex := simtest.Rough(t)
	ex.Plan.Altitude, ex.Plan.AltitudeBand = 5, 0.3
	straight := begin(t, ex)
	kept := keep(t, straight)
	straight.AttachMate()
	simtest.Give(t, straight, order.Command{Do: order.SoundSpeed, Value: 1520}, order.Command{Do: order.MosaicCell, Value: 0.5})
	marked := false
	for !straight.Done() {
		straight.Advance(100)
		if straight.Ticks() >= 1500 && !marked {
			marked = true
			simtest.Give(t, straight, order.Command{Do: order.Mark, X: 130, Y: 300})
		}
	}
	random := rand.New(rand.NewPCG(7, 7))
	last := straight.Ticks()
	for _, split := range []int64{0, 1, random.Int64N(last), random.Int64N(last), last - 1} {
		again := begin(t, straight.Exercise) // which it set up otherwise than it was given
		again.Workers = 1 + random.IntN(3)
		kept.given = 0
		if err := again.Refly(straight.Commands, split, kept); err != nil {
			t.Fatal(err)
		}
		if again.Ticks() != split || kept.given != again.Sent() {
			t.Fatalf("split at %d: stands at %d, %d of %d pings from the record", split, again.Ticks(), kept.given, again.Sent())
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
	kept := keep(b, straight)
	straight.AttachMate()
	for !straight.Done() {
		straight.Advance(1000)
	}
	for name, r := range map[string]sim.Recorded{"by the record": kept, "anew": nil} {
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
