package app

import (
	"bytes"
	"time"

	"dryline/cmd/dryline-desk/crew"
	"dryline/sim"
	"dryline/sim/order"
)

// journalEvery is how often a journal says how far the watch got.
const journalEvery = time.Second

// journal keeps the log of a watch while it is under way, so that a program or a
// machine that dies takes a second of it and no order: an order is written down
// before it is carried out, and how far the watch got every second. What is kept
// is only ever added to.
type journal struct {
	game    *Game
	crew    *crew.Crew
	where   string           // of the store; empty until it was first written
	ledger  Ledger           // nil until something is to be kept
	records *order.LogWriter // what is added to it, encoded
	tick    int64            // written last
	since   time.Duration
	flying  int    // additions that are not yet known to be kept
	adding  bool   // one is being made
	broken  bool   // it failed meanwhile
	fault   string // why nothing can be kept, as it was said
	over    bool   // there is nothing more to keep
}

// Order implements [crew.Book].
func (j *journal) Order(s *sim.Session, o order.Command) bool {
	if !j.over {
		j.write(s, func(w *order.LogWriter) error { return w.Command(o) })
		j.tick = o.Tick
	}
	return j.flying == 0
}

// pass says how far the watch got, when it is time to.
func (j *journal) pass(by time.Duration, v *crew.View) {
	if j.since += by; j.over || j.since < journalEvery {
		return
	}
	j.since = 0
	if v.Tick > j.tick && j.flying == 0 {
		j.reach(v.Tick)
	}
	if j.ledger != nil {
		j.ledger.Sync()
	}
}

func (j *journal) reach(tick int64) {
	write := func(s *sim.Session) {
		j.write(s, func(w *order.LogWriter) error { return w.Reached(tick) })
	}
	if j.ledger != nil {
		write(nil) // all that came before is there: the session need not be waited for
	} else {
		j.crew.With(func(s *sim.Session) error { write(s); return nil })
	}
	j.tick = tick
}

// write adds a record. What is begun, or begun again after a fault, is begun with
// all that the session was ordered so far.
func (j *journal) write(s *sim.Session, record func(*order.LogWriter) error) {
	var b bytes.Buffer
	begins := j.ledger == nil
	if begins {
		if err := j.begin(&b, s); err != nil {
			j.cannot(err)
			return
		}
	}
	j.records.To(&b)
	if err := record(j.records); err != nil {
		j.cannot(err)
		return
	}
	j.flying++
	j.adding, j.broken = true, false
	if begins {
		ledger, where := j.game.Store.Begin(j.where, watchName(j.crew), b.Bytes(), j.kept)
		if j.ledger = ledger; where != "" {
			j.where = where
		}
	} else {
		j.ledger.Add(b.Bytes(), j.kept)
	}
	j.adding = false
	if j.broken {
		j.drop()
	}
}

// begin writes a session's orders so far.
func (j *journal) begin(b *bytes.Buffer, s *sim.Session) (err error) {
	if j.records, err = order.NewLogWriter(b, s.Head()); err != nil {
		return err
	}
	for _, c := range s.Commands {
		if err := j.records.Command(c); err != nil {
			return err
		}
	}
	return nil
}

// kept takes word of an addition. After a fault the next record begins afresh.
func (j *journal) kept(err error) {
	j.flying--
	switch {
	case err == nil:
		j.fault = ""
	case j.adding:
		j.broken = true
		j.cannot(err)
	default:
		j.drop()
		j.cannot(err)
	}
	if !j.adding && j.flying == 0 {
		j.crew.Written()
	}
}

// cannot says once that nothing can be kept. The watch goes on without.
func (j *journal) cannot(err error) {
	if j.fault == "" {
		j.game.sayWhile("The session cannot be kept: "+err.Error(), func() bool { return j.fault != "" })
	}
	j.fault = err.Error()
}

func (j *journal) drop() {
	if j.ledger != nil {
		j.ledger.Close()
		j.ledger = nil
	}
}

// keep writes down all that was ordered and how far the watch got, without
// waiting for word of it: the window may go any moment.
func (j *journal) keep() {
	j.crew.Hurry()
	if tick := j.crew.View().Tick; !j.over && tick > j.tick {
		j.reach(tick)
	}
}

// leave ends the keeping of a watch that is left half way, and says where it is.
func (j *journal) leave() (where string) {
	j.crew.Hurry() // nobody is there to wait
	return j.end(func(s *sim.Session) {
		if j.ledger == nil && s.Ticks() == j.tick {
			return // nothing has happened since it was kept
		}
		j.write(s, func(w *order.LogWriter) error { return w.End(s.Ticks(), order.ReasonInterrupted, s.Digest()) })
	})
}

// finish keeps the whole of a session that is over, and the part that was kept
// of it goes. say is told what could not be done.
func (j *journal) finish(say func(string)) (where string) {
	failed := func(where string, err error) {
		switch {
		case err == nil:
		case where == "":
			say("The session cannot be kept: " + err.Error())
		default:
			say("The session is kept in " + where + ", but " + err.Error())
		}
	}
	return j.end(func(s *sim.Session) {
		var b bytes.Buffer
		if err := s.WriteLog(&b); err != nil {
			failed("", err)
			return
		}
		j.drop()
		part := j.where
		j.where, j.fault = "", ""
		j.game.Store.Finish(part, j.crew.Name()+".jsonl", b.Bytes(), func(where string, err error) {
			j.where = where
			failed(where, err)
		})
	})
}

func (j *journal) end(last func(*sim.Session)) (where string) {
	if j.over {
		return j.where
	}
	j.crew.With(func(s *sim.Session) error { last(s); return nil })
	j.over = true
	if j.ledger != nil {
		j.ledger.Sync()
		j.drop()
	}
	if j.fault != "" {
		return ""
	}
	return j.where
}

// watchName is the file of a session that is under way.
func watchName(c *crew.Crew) string { return c.Name() + "-watch.jsonl" }
