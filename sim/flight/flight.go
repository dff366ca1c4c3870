// Package flight flies a session to its end and hands its products over. It knows
// no terminal and no disk: where the products go is a [product.Sink]'s affair, how
// far the flight is and how fast it goes the caller's.
package flight

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"time"

	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/order"
	"dryline/sim/product"
	"dryline/sim/record"
)

// Flight is a session about to be flown.
type Flight struct {
	Session *sim.Session
	Sink    product.Sink // for the products

	// Log and Orders say who gives the orders: a log, or a list of orders that is
	// followed until the exercise ends. With neither it is the session's own hand.
	Log    *order.Log
	Orders []order.Command

	// Desk is work at the desk once the session is over, whatever tick it says. It goes
	// into the log, so that flown again the session gives the same.
	Desk []order.Command

	// Backing is where the recorder's pings go while it is flown; nil is memory.
	Backing record.Backing

	// Pace is how many times faster than the clock on the wall it goes; 0 is as fast
	// as it can. It changes no result.
	Pace float64

	// Model has the mate's run laid beside this one in the debrief.
	Model bool

	// Progress, if not nil, is called from time to time.
	Progress func(*sim.Session)
}

// stride is how many ticks pass between two looks at the clock.
const stride = 50

// ErrNotTheSame says that a session, flown again by the engine that flew it, does
// not give what its log says it gave.
var ErrNotTheSame = errors.New("flown again it does not give what the log says it gave: the log was changed, or the engine without its number")

// Fly flies the session to its end, or until the context is done, which leaves it
// interrupted, and writes its products to the sink. What another engine flew is
// said in Session.Another and in the debrief. Observers are added to the session
// before.
func (f *Flight) Fly(ctx context.Context) (debrief.Report, error) {
	s := f.Session
	writer := product.Attach(s, sim.Attend(s), f.Sink)
	store := record.New(cmp.Or[record.Backing](f.Backing, record.InMemory()))
	defer store.Close()
	sim.KeepLogged(s, store)
	writer.Record, writer.Model, s.Desk.Unpainted = store, f.Model, true
	started := time.Now()
	interrupted := false
	between := func() bool {
		f.tell()
		f.wait(ctx, started)
		interrupted = ctx.Err() != nil
		return !interrupted
	}
	reason := order.ReasonInterrupted
	var err error
	switch {
	case f.Log != nil:
		reason = f.Log.Reason
		err = s.Replay(f.Log, between)
	case f.Orders != nil:
		err = s.Follow(f.Orders, order.ToTheEnd, between)
	default:
		for !s.Done() && between() {
			s.Advance(stride)
		}
	}
	if err != nil {
		return debrief.Report{}, err
	}
	if interrupted {
		reason = order.ReasonInterrupted
	}
	if _, logging := s.Passage.Logging(); logging && len(f.Desk) > 0 && !s.Done() {
		if err := s.Give(order.Command{Do: order.LogOff}); err != nil { // the desk works on finished lines
			return debrief.Report{}, err
		}
	}
	s.Close(reason)
	f.tell()
	if f.Log != nil && !interrupted {
		if err := compare(f.Log, s); err != nil {
			return debrief.Report{}, err
		}
	}
	for i, c := range f.Desk {
		if interrupted {
			break
		}
		if err := s.Give(c); err != nil {
			return debrief.Report{}, fmt.Errorf("order %d at the desk: %w", i+1, err)
		}
	}
	return writer.Finish()
}

func (f *Flight) tell() {
	if f.Progress != nil {
		f.Progress(f.Session)
	}
}

// wait keeps to the pace.
func (f *Flight) wait(ctx context.Context, started time.Time) {
	if f.Pace <= 0 {
		return
	}
	due := started.Add(time.Duration(f.Session.Now() / f.Pace * float64(time.Second)))
	select {
	case <-ctx.Done():
	case <-time.After(time.Until(due)):
	}
}

// compare holds what a session gave, flown again, against what its log says it
// gave.
func compare(log *order.Log, s *sim.Session) error {
	foreign := log.Foreign()
	switch {
	case log.Digest == s.Digest():
	case foreign != "":
		s.Another = "it was " + foreign
	case log.Digest != "": // one cut off claims nothing
		return ErrNotTheSame
	}
	return nil
}
