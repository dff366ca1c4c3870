package sim

import (
	"bytes"
	"strings"
	"testing"
)

// tended runs the small exercise with a mate, and a person who does things at
// given ticks, advancing in strides.
func tended(t *testing.T, stride int, deeds map[int64]func(*Session)) *Session {
	t.Helper()
	ex := small(t)
	ex.Source, ex.Hash = []byte("title: small\n"), "none"
	s, err := New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	for !s.Done() {
		if f := deeds[s.Ticks()]; f != nil {
			f(s)
		}
		s.Advance(stride)
	}
	return s
}

// replayed writes the session's log and runs it again.
func replayed(t *testing.T, s *Session) *Session {
	t.Helper()
	var log bytes.Buffer
	if err := s.WriteLog(&log); err != nil {
		t.Fatal(err)
	}
	l, err := ReadLog(&log)
	if err != nil {
		t.Fatal(err)
	}
	again, err := New(s.Exercise, l.Seed)
	if err != nil {
		t.Fatal(err)
	}
	if err := again.Replay(l, nil); err != nil {
		t.Fatal(err)
	}
	return again
}

func must(t *testing.T, s *Session, orders ...Command) {
	t.Helper()
	for _, c := range orders {
		if err := s.Give(c); err != nil {
			t.Fatal(err)
		}
	}
}

// Contacts by hand are commands: however the ticks are grouped and on replay
// they come out the same, beside those of the lookout.
func TestContactsByHandReplay(t *testing.T) {
	deeds := map[int64]func(*Session){
		1000: func(s *Session) {
			line := s.Desk.OpenLine()
			if line == nil {
				t.Fatal("no line is open at tick 1000")
			}
			p := &line.Pings[len(line.Pings)/2]
			x, y, ok := p.GroundAt(true, 20)
			if !ok {
				t.Fatal("the middle of the swath cannot be placed")
			}
			must(t, s, Command{Do: Mark, X: x, Y: y, Ping: p.Number})
			n := s.Desk.LastContact()
			must(t, s, Command{Do: Measure, Number: n, Text: "shadow", X: x, Y: y, X2: x + 2, Y2: y})
			must(t, s, Command{Do: NameContact, Number: n, Text: "sinker"})
			must(t, s, Command{Do: ClassContact, Number: n, Text: "mooring"})
		},
		1500: func(s *Session) {
			must(t, s, Command{Do: Mark, X: 60, Y: 300})
			must(t, s, Command{Do: DeleteContact, Number: s.Desk.LastContact()})
			must(t, s, Command{Do: UndoContact})
			must(t, s, Command{Do: UndoContact})
			must(t, s, Command{Do: RedoContact})
			must(t, s, Command{Do: Lookout})
		},
	}
	s := tended(t, 500, deeds)
	if len(s.Desk.Contacts) < 2 || s.Desk.Contacts[0].Name != "sinker" || s.Desk.Contacts[0].Height <= 0 {
		t.Fatalf("got %+v", s.Desk.Contacts)
	}
	same(t, "in small groups", s, tended(t, 100, deeds))
	same(t, "replay", s, replayed(t, s))
}

// With the lookout off the desk marks nothing by itself.
func TestLookoutOff(t *testing.T) {
	on := tended(t, 1000, nil)
	off := tended(t, 1000, map[int64]func(*Session){0: func(s *Session) { must(t, s, Command{Do: Lookout, Value: 0}) }})
	if len(on.Desk.Contacts) == 0 || len(off.Desk.Contacts) != 0 {
		t.Errorf("marked %d with the lookout on and %d with it off, want some and none", len(on.Desk.Contacts), len(off.Desk.Contacts))
	}
}

// A command that cannot be carried out is one clear line and leaves no trace in
// the log.
func TestContactCommandsRefused(t *testing.T) {
	s, err := New(small(t), 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		give Command
		want string
	}{
		{Command{Do: Mark, X: 1e6}, "nowhere near"},
		{Command{Do: Mark, X: 10, Y: 10, Ping: 3}, "ping 3 is not on the log"},
		{Command{Do: NameContact, Number: 4, Text: "x"}, "name_contact: no contact has the number 4"},
		{Command{Do: UndoContact}, "nothing to undo"},
		{Command{Do: Lookout, Value: 0.5}, "neither 0 nor 1"},
	} {
		err := s.Give(test.give)
		if err == nil || !strings.Contains(err.Error(), test.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%+v: got error %v, want one line with %q", test.give, err, test.want)
		}
	}
	if len(s.Commands) != 0 || len(s.Desk.Contacts) != 0 {
		t.Errorf("refused commands left %d records and %d contacts", len(s.Commands), len(s.Desk.Contacts))
	}
}
