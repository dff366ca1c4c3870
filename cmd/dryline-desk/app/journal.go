package app

import (
	"bytes"

	"dryline/cmd/dryline-desk/crew"
)

// journalEvery is how often a watch under way is written down, updates of the
// window: ten seconds.
const journalEvery = 600

// journal keeps the log of a watch while it is under way, so that a program or a
// machine that dies takes seconds of it with it, not the watch. It writes apart
// from the window, one writing at a time.
type journal struct {
	where   string // of the store; empty until it was first written
	tick    int64  // written last
	updates int
	writing chan written // nil when none is under way
	fault   bool         // that it cannot be written was said
	over    bool         // there is nothing more to keep
}

type written struct {
	where string
	err   error
}

// pass writes the log when it is time to.
func (j *journal) pass(g *Game, c *crew.Crew, tick int64) {
	if j.writing != nil {
		select {
		case w := <-j.writing:
			j.note(g, w)
		default:
			return
		}
	}
	if j.updates++; j.over || j.updates < journalEvery || tick == j.tick {
		return
	}
	j.updates, j.tick = 0, tick
	j.writing = make(chan written, 1)
	go func(where string, done chan<- written) { done <- keep(g.Store, where, c, watchName(c)) }(j.where, j.writing)
}

// end writes the log a last time. Of a session that is over it keeps the whole,
// and the part that was kept of it goes.
func (j *journal) end(g *Game, c *crew.Crew, finished bool) (where string) {
	if j.writing != nil {
		j.note(g, <-j.writing)
	}
	if j.over {
		return j.where
	}
	j.over = true
	part := j.where
	var w written
	if finished {
		w = keep(g.Store, "", c, c.Name()+".jsonl")
	} else {
		w = keep(g.Store, part, c, watchName(c))
	}
	j.note(g, w)
	if finished && w.err == nil && part != "" {
		if err := g.Store.Drop(part); err != nil {
			g.say("What was kept of the watch could not be removed: " + err.Error())
		}
	}
	return w.where
}

func (j *journal) note(g *Game, w written) {
	j.writing = nil
	if w.err == nil {
		j.where = w.where
		return
	}
	if !j.fault {
		j.fault = true
		g.say("The session cannot be kept: " + w.err.Error())
	}
}

// watchName is the file of a session that is under way.
func watchName(c *crew.Crew) string { return c.Name() + "-watch.jsonl" }

func keep(s Store, where string, c *crew.Crew, name string) written {
	var b bytes.Buffer
	if err := c.WriteLog(&b); err != nil {
		return written{err: err}
	}
	where, err := s.Keep(where, name, b.Bytes())
	return written{where, err}
}
