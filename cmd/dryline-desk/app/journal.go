package app

import (
	"bytes"
	"time"

	"dryline/cmd/dryline-desk/crew"
)

// journalEvery is how often a journal says how far the watch got.
const journalEvery = time.Second

// journal keeps the log of a watch while it is under way, so that a program or a
// machine that dies takes a second of it and no order: an order is written down
// before it is carried out, and how far the watch got every second. What is kept
// is only ever added to.
type journal struct {
	game   *Game
	crew   hands
	where  string // of the store; empty until it was first written
	ledger Ledger // nil until something is to be kept
	tick   int64  // written last
	since  time.Duration
	flying int    // additions that are not yet known to be kept
	adding bool   // one is being made
	broken bool   // it failed meanwhile
	fault  string // why nothing can be kept, as it was said
	sent   bool   // the exercise's files were handed to the store
	over   bool   // there is nothing more to keep
}

// Order implements [crew.Book].
func (j *journal) Order(tick int64, r crew.Record) bool {
	if !j.over {
		j.write(r)
		j.tick = tick
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
	j.write(j.crew.Reached(tick))
	j.tick = tick
}

// write adds a record. What is begun, or begun again after a fault, is begun with
// all that the session was ordered so far.
func (j *journal) write(r crew.Record) {
	begins := j.ledger == nil
	records, err := r(begins)
	if err != nil {
		j.cannot(err)
		return
	}
	j.flying++
	j.adding, j.broken = true, false
	if begins {
		j.beside()
		ledger, where := j.game.Store.Begin(j.where, watchName(j.crew), records, j.kept)
		if j.ledger = ledger; where != "" {
			j.where = where
		}
	} else {
		j.ledger.Add(records, j.kept)
	}
	j.adding = false
	if j.broken {
		j.drop()
	}
}

// beside keeps what the session's exercise names, once. Without it the session is kept all
// the same: whoever has the file can put it there.
func (j *journal) beside() {
	files := j.crew.Files()
	if len(files) == 0 || j.sent {
		return
	}
	j.sent = true
	if err := j.game.Store.Beside(files); err != nil {
		j.game.say("This session cannot be resumed once it is closed: " + err.Error())
	}
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

// cannot says once that nothing can be kept. The watch continues without.
func (j *journal) cannot(err error) {
	if j.fault == "" {
		j.game.sayWhile("The session cannot be saved: "+err.Error(), func() bool { return j.fault != "" })
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
	return j.end(func() {
		if j.ledger != nil || j.crew.View().Tick != j.tick { // or nothing has happened since it was kept
			j.write(j.crew.Interrupted())
		}
	})
}

// finish keeps the whole of a session that is over, and the part that was kept
// of it goes. say is told what could not be done.
func (j *journal) finish(say func(string)) (where string) {
	failed := func(where string, err error) {
		switch {
		case err == nil:
		case where == "":
			say("The session cannot be saved: " + err.Error())
		default:
			say("The session is kept in " + where + ", but " + err.Error())
		}
	}
	return j.end(func() {
		var b bytes.Buffer
		if err := j.crew.WriteLog(&b); err != nil {
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

func (j *journal) end(last func()) (where string) {
	if j.over {
		return j.where
	}
	last()
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
func watchName(c hands) string { return c.Name() + "-watch.jsonl" }
