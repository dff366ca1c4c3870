package app

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"dryline/sim"
)

// shelf is a store of named logs.
type shelf struct {
	memory
	logs map[string][]byte
	full bool
}

func (s *shelf) Keep(where, name string, log []byte) (string, error) {
	if s.full {
		return "", errors.New("no room")
	}
	if where == "" {
		where = name
	}
	s.logs[where] = log
	return where, nil
}

func (s *shelf) Drop(where string) error {
	if _, ok := s.logs[where]; !ok {
		return errors.New("not kept: " + where)
	}
	delete(s.logs, where)
	return nil
}

// settle waits for a writing under way.
func settle(g *Game, w *Watch) {
	if w.journal.writing != nil {
		w.journal.note(g, <-w.journal.writing)
	}
}

// pass lets half a minute of the window's time go by.
func pass(g *Game, w *Watch) {
	for range 30 {
		w.crew.Pass(1, 1e12)
		w.view = w.crew.View()
		for range 60 {
			w.journal.pass(g, w.crew, w.view.Tick)
		}
		settle(g, w)
	}
}

func TestAWatchUnderWayIsKept(t *testing.T) {
	s := &shelf{logs: map[string][]byte{}}
	g := NewGame(s, false)
	w := watchUnderWay(t, g, "first-line", 5)
	pass(g, w)
	const part, whole = "first-line-3-watch.jsonl", "first-line-3.jsonl"
	l, err := sim.ReadLog(bytes.NewReader(s.logs[part]))
	if err != nil {
		t.Fatal(err)
	}
	if l.Reason != sim.ReasonInterrupted || l.Ticks < w.view.Tick-150 || len(l.Commands) < 3 {
		t.Errorf("kept: ended %q at tick %d with %d orders; the watch is at %d", l.Reason, l.Ticks, len(l.Commands), w.view.Tick)
	}

	// Gone on with, it is kept in the same place, and no more often than it moves on.
	again, err := Resume(g, part, s.logs[part])
	if err != nil {
		t.Fatal(err)
	}
	w = again.(*Watch)
	was := len(s.logs[part])
	for w.crew.View().Back < 1 {
		w.crew.Pass(1, 1e12)
	}
	w.view = w.crew.View()
	w.setRate(1, false)
	for range 2 * journalEvery {
		w.journal.pass(g, w.crew, w.view.Tick)
	}
	settle(g, w)
	if len(s.logs) != 1 || len(s.logs[part]) != was {
		t.Errorf("%d logs and %d bytes kept before anything happened, want 1 and %d", len(s.logs), len(s.logs[part]), was)
	}
	w.give(sim.Command{Do: sim.Cable, Value: 20})
	pass(g, w)
	if len(s.logs) != 1 || len(s.logs[part]) <= was {
		t.Errorf("%d logs and %d bytes kept after going on, want 1 and more than %d", len(s.logs), len(s.logs[part]), was)
	}

	// Over, the whole is kept and the part goes.
	w.give(sim.Command{Do: sim.Finish})
	w.crew.Pass(1, 1e12)
	if where := w.journal.end(g, w.crew, true); where != whole {
		t.Errorf("kept in %q, want %q", where, whole)
	}
	l, err = sim.ReadLog(bytes.NewReader(s.logs[whole]))
	if err != nil || l.Reason != sim.ReasonFinished || len(s.logs) != 1 {
		t.Errorf("kept when over: %v, %+v in %d logs", err, l, len(s.logs))
	}

	// Its debrief, seen again, leaves nothing more behind.
	again, err = Resume(g, "", s.logs[whole])
	if err != nil {
		t.Fatal(err)
	}
	w = again.(*Watch)
	pass(g, w)
	w.journal.end(g, w.crew, true)
	if len(s.logs) != 1 {
		t.Errorf("%d logs kept, want 1", len(s.logs))
	}
}

// What cannot be kept is said once, and tried again.
func TestAWatchThatCannotBeKept(t *testing.T) {
	s := &shelf{logs: map[string][]byte{}, full: true}
	g := NewGame(s, false)
	w := watchUnderWay(t, g, "first-line", 5)
	pass(g, w)
	if !strings.Contains(g.Notice, "no room") {
		t.Errorf("notice %q, want no room", g.Notice)
	}
	g.Notice = ""
	pass(g, w)
	if g.Notice != "" {
		t.Errorf("said again: %q", g.Notice)
	}
	s.full = false
	pass(g, w)
	if len(s.logs) != 1 {
		t.Errorf("%d logs kept when there is room again, want 1", len(s.logs))
	}
}
