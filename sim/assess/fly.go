package assess

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"time"

	"dryline/sim"
	"dryline/sim/order"
	"dryline/sim/product"
	"dryline/sim/product/folder"
	"dryline/sim/record"
)

// Flight flies an assessment by a list of orders.
type Flight struct {
	Assessment *Session
	Sink       product.Sink   // for what is handed in
	Backing    record.Backing // where the recorder's pings go; nil is memory

	// Wait lets time pass on the wall, or until the context is done; nil has it go as fast
	// as it can, which the hours in the log show.
	Wait     func(context.Context, time.Duration)
	Progress func(*sim.Session)
}

const (
	stride     = 10  // ticks between two looks at the clock
	writeEvery = 100 // ticks at most between two records
)

// Fly brings the session back to where it was left, goes on by the orders, of which those
// already given may be the first, and hands in what came of it when the exercise is over and all
// orders are given. It stops short of that, with the session still under way, at a tick, or
// when the context is done; it reports whether it was handed in.
func (f *Flight) Fly(ctx context.Context, orders []order.Command, until int64) (handedIn bool, err error) {
	s := f.Assessment
	store := record.New(cmp.Or[record.Backing](f.Backing, record.InMemory()))
	defer store.Close()
	var apart product.Memory
	writer := attach(s.Session, f.Sink, &apart, store)
	if s.left != nil {
		if err := s.bringBack(ctx, f.tell); err != nil || ctx.Err() != nil {
			return false, err
		}
	}
	if orders, err = s.notYetGiven(orders); err != nil {
		return false, err
	}
	for _, c := range orders {
		if stopped, err := f.to(ctx, c.Tick, until); stopped || err != nil {
			return false, err
		}
		if s.Done() && c.Do == order.Finish {
			continue // the time limit finished it
		}
		if err := s.Give(c); err != nil {
			return false, err
		}
		if c.Do == order.Finish {
			if err := s.Reached(); err != nil {
				return false, err
			}
		}
	}
	if stopped, err := f.to(ctx, order.ToTheEnd, until); stopped || err != nil {
		return false, err
	}
	s.Close(order.ReasonFinished)
	if _, err := writer.Finish(); err != nil {
		return false, err
	}
	return true, s.handIn(f.Sink, &apart, writer)
}

// attach prepares the writer of an assessed session before its first step.
func attach(s *sim.Session, sink, apart product.Sink, store *record.Store) *product.Writer {
	writer := product.Attach(s, sim.Attend(s), sink)
	sim.KeepLogged(s, store)
	writer.Record, writer.Apart, s.Desk.Unpainted = store, apart, true
	return writer
}

// bringBack flies what was flown before, and writes down that it goes on.
func (s *Session) bringBack(ctx context.Context, tell func()) error {
	err := s.Follow(s.left.Orders, s.left.Ticks, func() bool { tell(); return ctx.Err() == nil })
	if err != nil {
		return fmt.Errorf("it cannot be brought back: %w", err)
	}
	if ctx.Err() != nil {
		return nil
	}
	return s.Resumed()
}

// Left returns the orders that a session that was left is brought back by, and to which tick; there is none
// when it was just begun. [Session.Resumed] is to be called when it is there.
func (s *Session) Left() (orders []order.Command, ticks int64, left bool) {
	if s.left == nil {
		return nil, 0, false
	}
	return s.left.Orders, s.left.Ticks, true
}

// Resumed writes down that a session that was left goes on. One whose watch was over is only
// handed in.
func (s *Session) Resumed() error {
	if m := s.left.Moments; len(m) > 0 && m[len(m)-1].Over {
		return nil
	}
	return s.Log.resumed(s.Ticks())
}

// Reached writes down how far the session is.
func (s *Session) Reached() error { return s.Log.reached(s.Ticks(), s.Done()) }

// notYetGiven leaves out the orders that were given before the session was left.
func (s *Session) notYetGiven(orders []order.Command) ([]order.Command, error) {
	if s.left == nil {
		return orders, nil
	}
	given := s.left.Orders
	if len(orders) >= len(given) && slices.Equal(orders[:len(given)], given) {
		orders = orders[len(given):]
	}
	if len(orders) > 0 && orders[0].Tick < s.Ticks() {
		return nil, fmt.Errorf("order for tick %d: the session is at tick %d already", orders[0].Tick, s.Ticks())
	}
	return orders, nil
}

// Give writes an order down and carries it out. One that would be refused is not written.
func (s *Session) Give(c order.Command) error {
	c.Tick = s.Ticks()
	if err := s.Refusal(c); err != nil {
		return fmt.Errorf("tick %d: %w", c.Tick, err)
	}
	if err := s.Log.order(c); err != nil {
		return err
	}
	return s.Session.Give(c)
}

// to sails to a tick; stopped says that it came to the end of what was to be flown before.
func (f *Flight) to(ctx context.Context, tick, until int64) (stopped bool, err error) {
	s := f.Assessment
	wrote := s.Ticks()
	for s.Ticks() < tick && !s.Done() {
		if ctx.Err() != nil || s.Ticks() >= until {
			if s.Ticks() != wrote {
				err = s.Reached()
			}
			return true, err
		}
		began := s.Log.now()
		n := s.Advance(int(min(tick-s.Ticks(), stride, until-s.Ticks())))
		f.tell()
		if f.Wait != nil {
			f.Wait(ctx, time.Duration(n)*time.Second/10-s.Log.now().Sub(began))
		}
		if s.Done() || s.Ticks() >= wrote+writeEvery {
			wrote = s.Ticks()
			if err := s.Reached(); err != nil {
				return true, err
			}
		}
	}
	return false, nil
}

func (f *Flight) tell() {
	if f.Progress != nil {
		f.Progress(f.Assessment.Session)
	}
}

// handIn seals what came of it, ends the log and puts all of it beside the desk's products.
// The end of the log is in what is handed in alone: should that fail, the session under way
// can be resumed and handed in again.
func (s *Session) handIn(sink product.Sink, apart *product.Memory, writer *product.Writer) error {
	products := slices.Clone(sink.Files())
	packed, err := pack(apart)
	if err != nil {
		return err
	}
	findings, err := seal(packed, s.instructor, s.installation)
	if err != nil {
		return err
	}
	var log bytes.Buffer
	soFar, err := s.box.Read(LogFile)
	if err != nil {
		return err
	}
	log.Write(soFar)
	last := *s.Log
	last.w, last.keep, last.key = &log, func(State) error { return nil }, bytes.Clone(s.Log.key)
	if err := last.add(entry{HandedIn: &HandedIn{s.Ticks(), s.Ended(), s.Digest(), products, hashOf(findings)}}); err != nil {
		return err
	}
	for _, name := range []string{SecretFile, KeyFile} {
		content, err := s.box.Read(name)
		if err != nil {
			return err
		}
		if err := sink.Write(name, bytesTo(content)); err != nil {
			return err
		}
	}
	for _, f := range []struct {
		name  string
		write func(io.Writer) error
	}{{FindingsFile, bytesTo(findings)}, {LogFile, bytesTo(log.Bytes())}, {folder.ListFile, writer.Contents}} {
		if err := sink.Write(f.name, f.write); err != nil {
			return err
		}
	}
	return nil
}

func bytesTo(content []byte) func(io.Writer) error {
	return func(w io.Writer) error { _, err := w.Write(content); return err }
}
