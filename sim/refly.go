package sim

import (
	"iter"

	"dryline/sim/order"
	"dryline/sim/record"
	"dryline/sonar"
)

// Recorded gives back the pings of an earlier flight of the same session as they
// were recorded, such as a [record.Store].
type Recorded interface {
	// Pings goes through those from one number to another, both included. Each is good
	// until the next.
	Pings(from, to uint64) iter.Seq2[*record.Ping, error]
}

// Refly flies the session from its start to a tick by the orders of an earlier
// flight, to go on from there: back to any moment of a watch, or with a record that
// is worked again. The passage is flown anew, 12 us a tick, and pings are taken from
// the record instead of being made; those it does not have are made. The session is
// then what it was at that tick, to the byte.
//
// What a ping lit is not in a record: for the pings it gives back a witness learns
// of none; see [Witness.Adopt].
func (s *Session) Refly(orders []order.Command, tick int64, r Recorded) error {
	s.recorded = r
	defer func() { s.recorded = nil }()
	for i, c := range orders {
		if c.Tick > tick {
			orders = orders[:i]
			break
		}
	}
	return s.Follow(orders, tick, nil)
}

// recall fills in those of the pings, in order of their numbers, that are in the
// record.
func (s *Session) recall(jobs []*sending) {
	if s.recorded == nil || len(jobs) == 0 || s.labelled {
		return
	}
	for p, err := range s.recorded.Pings(jobs[0].number, jobs[len(jobs)-1].number) {
		if err != nil {
			return // those that are left are made
		}
		e := jobs[p.Number-jobs[0].number]
		for side, channels := range [2][][]uint16{sonar.Port: p.Port, sonar.Starboard: p.Starboard} {
			e.echo[side].Lit = e.echo[side].Lit[:0]
			for c := range channels {
				copy(e.echo[side].Samples[c], channels[c])
			}
		}
		e.recalled = true
	}
}
