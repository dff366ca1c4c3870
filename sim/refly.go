package sim

import (
	"dryline/sim/order"
	"dryline/sonar"
)

// Recorded gives back the pings of an earlier flight of the same session, as they
// were recorded.
type Recorded interface {
	// Samples fills in the samples of a ping, by side and channel, and reports
	// whether it has them. It is asked by many goroutines at once.
	Samples(number uint64, into [2][][]uint16) bool
}

// Refly flies the session from its start to a tick by the orders of an earlier
// flight, to go on from there: back to any moment of a watch, or with a record that
// is worked again. The passage is flown anew, 25 us a tick, and pings are taken from
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

// recall takes a ping from the record, if it is there.
func (s *Session) recall(e *event) bool {
	if s.recorded == nil {
		return false
	}
	for side := range e.echo {
		e.echo[side].Lit = e.echo[side].Lit[:0]
	}
	return s.recorded.Samples(e.number, [2][][]uint16{e.echo[sonar.Port].Samples, e.echo[sonar.Starboard].Samples})
}
