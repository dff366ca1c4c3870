package app

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/order"
)

// shelf is a store of named logs. A slow one says later that something is kept.
type shelf struct {
	memory
	logs   map[string][]byte
	full   bool
	slow   bool
	later  []func()
	syncs  int
	begins int
}

func newShelf() *shelf { return &shelf{logs: map[string][]byte{}} }

// put has a deed done and told, now or when the store is polled.
func (s *shelf) put(deed func(), told func(error)) {
	if s.slow {
		s.later = append(s.later, func() { s.did(deed, told) })
		return
	}
	s.did(deed, told)
}

func (s *shelf) did(deed func(), told func(error)) {
	if s.full {
		told(errors.New("no room"))
		return
	}
	deed()
	told(nil)
}

// Poll tells nothing of itself: the test says when, by answer.
func (s *shelf) answer() {
	later := s.later
	s.later = nil
	for _, f := range later {
		f()
	}
}

func (s *shelf) Begin(where, name string, records []byte, done func(error)) (Ledger, string) {
	if where == "" {
		where = name
	}
	s.begins++
	s.put(func() { s.logs[where] = slices.Clone(records) }, done)
	return &page{s, where}, where
}

func (s *shelf) Finish(part, name string, log []byte, done func(string, error)) {
	s.put(func() { s.logs[name] = log; delete(s.logs, part) }, func(err error) {
		if err != nil {
			name = ""
		}
		done(name, err)
	})
}

// page is one log on the shelf.
type page struct {
	*shelf
	where string
}

func (p *page) Add(records []byte, done func(error)) {
	p.put(func() { p.logs[p.where] = append(p.logs[p.where], records...) }, done)
}
func (p *page) Sync()        { p.syncs++ }
func (p *page) Close() error { return nil }

// kept reads a log on the shelf.
func (s *shelf) kept(t *testing.T, name string) *order.Log {
	t.Helper()
	l, err := order.ReadLog(bytes.NewReader(s.logs[name]))
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, s.logs[name])
	}
	return l
}

const part, whole = "first-line-3-watch.jsonl", "first-line-3.jsonl"

// begun is a watch of the first line on a clock set by hand.
func begun(t *testing.T, s Store) (*Game, *Duty, *hand) {
	t.Helper()
	g := NewGame(s, false)
	h := handed(g)
	g.Resize(1280, 720, 1)
	ex, err := scenarios.Find("first-line")
	if err != nil {
		t.Fatal(err)
	}
	screen, err := Start(g, ex)
	if err != nil {
		t.Fatal(err)
	}
	g.Go(screen)
	h.update(t, g, 0)
	return g, screen.(*Duty), h
}

// pass lets seconds of the window's time go by, at sixty updates each.
func (h *hand) pass(t *testing.T, g *Game, seconds float64) {
	t.Helper()
	for range int(seconds * 60) {
		h.update(t, g, time.Second/60)
	}
}

// script has orders that a trainee may give while time stands still.
var script = []order.Command{
	{Do: order.Cable, Value: 20}, {Do: order.Speed, Value: 2}, {Do: order.Range, Value: 100}, {Do: order.Mark, X: 150, Y: 210},
	{Do: order.Measure, Number: 1, Text: "length", X: 150, Y: 210, X2: 153, Y2: 210}, {Do: order.NameContact, Number: 1, Text: "Box"},
	{Do: order.UndoContact}, {Do: order.LogOn, Line: "A"}, {Do: order.LogOff}, {Do: order.SteerPoint, X: 10, Y: 20},
}

// same reports orders as they were given, their ticks apart.
func sameOrders(got, want []order.Command) bool {
	return slices.EqualFunc(got, want, func(a, b order.Command) bool {
		a.Tick, b.Tick = 0, 0
		return a == b
	})
}

// An order is written down before it is carried out: with time standing still
// each is kept when the next is given, and none that was refused.
func TestAnOrderIsKeptBeforeItTakesEffect(t *testing.T) {
	s := newShelf()
	_, w, _ := begun(t, s)
	w.pace.set(1, true)
	lookout := order.Command{Do: order.Lookout}
	for i, o := range script {
		w.give(o)
		if l := s.kept(t, part); !sameOrders(l.Commands[1:], script[:i+1]) || !sameOrders(l.Commands[:1], []order.Command{lookout}) {
			t.Fatalf("after order %d, %s: kept %+v", i+1, o.Do, l.Commands)
		}
		w.give(order.Command{Do: order.DeleteContact, Number: 7}, order.Command{Do: order.Cable, Value: -4}) // there is none; no
	}
	if n := w.crew.View().Complaints; n != 2*len(script) {
		t.Errorf("%d refused, want %d", n, 2*len(script))
	}
	if l := s.kept(t, part); len(l.Commands) != len(script)+1 || l.Reason != order.ReasonTruncated {
		t.Errorf("kept in the end: %d orders, %s; want %d and no end", len(l.Commands), l.Reason, len(script)+1)
	}
}

// Where it takes a while to write an order down it is pending until then: it has
// no effect, no tick passes, and what is ordered meanwhile builds on it.
func TestAnOrderIsPendingUntilItIsKept(t *testing.T) {
	s := newShelf()
	s.slow = true
	g, w, h := begun(t, s)
	h.pass(t, g, 0.5)
	at, was := w.view.Tick, w.view.Bridge.CableOrdered
	w.payOut(1)
	h.pass(t, g, 0.1)
	w.payOut(1)
	w.give(order.Command{Do: order.Mark, X: 150, Y: 210}, order.Command{Do: order.NameContact, Number: 1, Text: "Box"})
	h.pass(t, g, 0.5)
	if v := w.view; v.Tick != at || v.Bridge.CableOrdered != was || len(v.Pending) != 4 || len(s.logs) != 0 {
		t.Errorf("unanswered: tick %d, %g m, %d pending, %d logs; want tick %d, %g m, 4 pending, none", v.Tick, v.Bridge.CableOrdered, len(v.Pending), len(s.logs), at, was)
	}
	w.rail.says(w.Watch)
	if got, want := w.rail.winch.Label, fmt.Sprintf("Winch: %.0f m pending", was+2); got != want {
		t.Errorf("the winch says %q, want %q", got, want)
	}
	if says := w.pendingSays(); !strings.Contains(says, "4 orders") {
		t.Errorf("the foot says %q", says)
	}
	for n := 1; n <= 4; n++ {
		s.answer()
		if l := s.kept(t, part); len(l.Commands) != n+1 {
			t.Fatalf("answered %d times: %d orders kept, want %d", n, len(l.Commands), n+1)
		}
		if left := len(w.crew.View().Pending); left != 4-n {
			t.Fatalf("answered %d times: %d pending, want %d", n, left, 4-n)
		}
	}
	h.pass(t, g, 0.5)
	if v := w.view; v.Bridge.CableOrdered != was+2 || v.Tick == at || len(v.Contacts) != 1 || v.Contacts[0].Name != "Box" {
		t.Errorf("answered: %g m at tick %d, contacts %+v; want %g m, later than %d, Box", v.Bridge.CableOrdered, v.Tick, v.Contacts, was+2, at)
	}
	for _, o := range s.kept(t, part).Commands[1:] {
		if o.Tick != at {
			t.Errorf("%s is kept for tick %d, it was given and carried out at %d", o.Do, o.Tick, at)
		}
	}

	// A page that goes writes down all that is pending and waits for no answer.
	w.payOut(1)
	h.update(t, g, time.Second/60)
	w.payOut(1)
	g.Keep()
	s.answer()
	if l := s.kept(t, part); len(l.Commands) != 7 || l.Ticks != w.crew.View().Tick {
		t.Errorf("the page went: %d orders kept up to tick %d, want 7 up to %d", len(l.Commands), l.Ticks, w.crew.View().Tick)
	}
	if v := w.crew.View(); len(v.Pending) != 0 || v.Bridge.CableOrdered != was+4 {
		t.Errorf("it stayed after all: %d pending, %g m; want none and %g", len(v.Pending), v.Bridge.CableOrdered, was+4)
	}
}

// How far a watch got is kept each second of the clock, however many updates that
// takes and however fast time runs, and synced as often while there is something.
func TestTheTickReachedIsKeptEachSecond(t *testing.T) {
	for _, updates := range []int{60, 9, 3} {
		for _, rate := range []float64{1, 10} {
			t.Run(fmt.Sprintf("%d updates a second at %g times", updates, rate), func(t *testing.T) {
				s := newShelf()
				g, w, h := begun(t, s)
				w.pace.set(rate, false)
				for second := 1; second <= 5; second++ {
					for range updates {
						w.slacken = slacken{} // it is hurried past the start of the line
						h.update(t, g, time.Second/time.Duration(updates))
					}
					h.at = h.at.Add(time.Second % time.Duration(updates)) // what dividing lost
					if second == 1 {
						continue // what is an update short of a second is not a second
					}
					// An update's worth may be missing at the end of a second.
					least := int64(float64(second)*10*rate - 1 - 10*rate/float64(updates))
					if l := s.kept(t, part); l.Ticks < least-int64(10*rate) || w.view.Tick < least || s.syncs < second-2 {
						t.Fatalf("after %d s: at tick %d, %d kept, synced %d times; want %d or more and no more than a second less", second, w.view.Tick, l.Ticks, s.syncs, least)
					}
				}
			})
		}
	}
}

// At nine frames a second a watch goes at the pace of the water and at the rate
// asked for, as at sixty: time is what the clock says.
func TestTimeGoesByTheClock(t *testing.T) {
	for _, updates := range []int{60, 9, 2} {
		g, w, h := begun(t, newShelf())
		for range 20 * updates {
			h.update(t, g, time.Second/time.Duration(updates))
		}
		if at := w.view.Tick; at < 196 || at > 201 {
			t.Errorf("%d updates a second: tick %d after 20 s, want 200", updates, at)
		}
	}
}

func TestAWatchUnderWayIsKept(t *testing.T) {
	s := newShelf()
	g, w, h := begun(t, s)
	w.give(script[0])
	h.pass(t, g, 5)
	g.Leave()
	l := s.kept(t, part)
	if l.Reason != order.ReasonInterrupted || l.Ticks != w.crew.View().Tick || len(l.Commands) != 2 {
		t.Errorf("left: ended %q at tick %d with %d orders; the watch is at %d", l.Reason, l.Ticks, len(l.Commands), w.crew.View().Tick)
	}

	// Resumed, it is kept in the same place, and written only when it moves on.
	begins, was := s.begins, bytes.Clone(s.logs[part])
	again, err := Resume(g, part, s.logs[part])
	if err != nil {
		t.Fatal(err)
	}
	w = again.(*Duty)
	g.Go(w)
	for w.crew.View().Restored < 1 {
		h.update(t, g, time.Second/60)
	}
	h.pass(t, g, 3)
	if len(s.logs) != 1 || s.begins != begins || !bytes.Equal(s.logs[part], was) {
		t.Errorf("%d logs and %d bytes kept before anything happened, want 1 and %d", len(s.logs), len(s.logs[part]), len(was))
	}
	if at := w.view.Tick; at != l.Ticks {
		t.Errorf("it stands at tick %d, want %d", at, l.Ticks)
	}
	w.give(script[1])
	w.pace.set(1, false)
	h.pass(t, g, 2)
	more := s.kept(t, part)
	if len(s.logs) != 1 || more.Ticks <= l.Ticks || !reflect.DeepEqual(more.Commands[:2], l.Commands) || !sameOrders(more.Commands[2:], script[1:2]) {
		t.Errorf("resumed: %d logs, tick %d, orders %+v", len(s.logs), more.Ticks, more.Commands)
	}

	// Over, the whole is kept and the part goes.
	w.give(order.Command{Do: order.Finish})
	for range 8 {
		h.update(t, g, time.Second/60)
	}
	d, ok := g.screen.(*Debrief)
	if !ok || d.kept != whole {
		t.Fatalf("over: %T, kept in %+v; want the debrief, in %q", g.screen, d, whole)
	}
	if l := s.kept(t, whole); l.Reason != order.ReasonFinished || len(s.logs) != 1 {
		t.Errorf("kept when over: %+v in %d logs", l, len(s.logs))
	}

	// Its debrief, seen again, leaves nothing more behind.
	again, err = Resume(g, "", s.logs[whole])
	if err != nil {
		t.Fatal(err)
	}
	g.Go(again)
	for range 1000 {
		h.update(t, g, time.Second/60)
	}
	if _, ok := g.screen.(*Debrief); !ok || len(s.logs) != 1 {
		t.Errorf("%T and %d logs, want the debrief and 1", g.screen, len(s.logs))
	}
}

// A session that cannot be brought back all the way is resumed in a place of its
// own: the rest of it stays where it is.
func TestWhatCannotBeBroughtBackStays(t *testing.T) {
	s := newShelf()
	g, w, h := begun(t, s)
	w.give(script[:3]...)
	h.pass(t, g, 2)
	g.Leave()
	log := withSpeed(t, s.logs[part], 99)
	const old = "old-watch.jsonl"
	s.logs = map[string][]byte{old: log}
	again, err := Resume(g, old, log)
	if err != nil {
		t.Fatal(err)
	}
	w = again.(*Duty)
	g.Go(w)
	h.pass(t, g, 1)
	w.give(script[0])
	if !bytes.Equal(s.logs[old], log) || len(s.logs) != 2 {
		t.Errorf("%d logs, the one that was there of %d bytes; want 2 and %d", len(s.logs), len(s.logs[old]), len(log))
	}
}

// withSpeed is a log in which the speeds ordered are another, chained anew.
func withSpeed(t *testing.T, log []byte, value float64) []byte {
	t.Helper()
	l, err := order.ReadLog(bytes.NewReader(log))
	if err != nil {
		t.Fatal(err)
	}
	ex, err := scenarios.FromLog(l)
	if err != nil {
		t.Fatal(err)
	}
	s, err := sim.NewSeeded(ex, l.Seeds)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	w, err := order.NewLogWriter(&b, s.Head())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range l.Commands {
		if c.Do == order.Speed {
			c.Value = value
		}
		if err := w.Command(c); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Reached(l.Ticks); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// What cannot be kept is said once, the watch goes on, and when there is room
// again all of it is kept and nothing said of it any more.
func TestAWatchThatCannotBeKept(t *testing.T) {
	for _, slow := range []bool{false, true} {
		s := newShelf()
		s.slow, s.full = slow, true
		g, w, h := begun(t, s)
		pass := func(seconds int) {
			for range seconds * 4 {
				h.update(t, g, time.Second/4)
				s.answer()
			}
		}
		w.give(script[0])
		pass(3)
		if !strings.Contains(g.Notice, "no room") || w.view.Bridge.CableOrdered != 20 {
			t.Errorf("slow %v: notice %q with %g m ordered, want no room and 20", slow, g.Notice, w.view.Bridge.CableOrdered)
		}
		g.Notice = ""
		w.give(script[1])
		pass(3)
		if g.Notice != "" {
			t.Errorf("slow %v: said again: %q", slow, g.Notice)
		}
		s.full = false
		w.give(script[3])
		pass(2)
		if l := s.kept(t, part); !sameOrders(l.Commands[1:], []order.Command{script[0], script[1], script[3]}) || l.Ticks < w.view.Tick-20 {
			t.Errorf("slow %v: with room again %+v is kept up to tick %d of %d", slow, l.Commands, l.Ticks, w.view.Tick)
		}
		// Room again while it is still said.
		s.full = true
		w.give(script[0])
		pass(1)
		said := g.Notice
		s.full = false
		w.give(script[1])
		pass(1)
		if said == "" || g.Notice != "" {
			t.Errorf("slow %v: said %q, and with room again %q; want it gone", slow, said, g.Notice)
		}
	}
}
