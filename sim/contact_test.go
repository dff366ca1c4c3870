package sim_test

import (
	"dryline/sim/order"
	"dryline/sim/simtest"
	"strings"
	"testing"
)

// Contacts by hand are commands: however the ticks are grouped and on replay
// they come out the same, beside those of the lookout.
func TestContactsByHandReplay(t *testing.T) {
	deeds := map[int64]func(*session){
		1000: func(s *session) {
			line := s.Desk.OpenLine()
			if line == nil {
				t.Fatal("no line is open at tick 1000")
			}
			p := &line.Pings[len(line.Pings)/2]
			x, y, ok := p.GroundAt(true, 20)
			if !ok {
				t.Fatal("the middle of the swath cannot be placed")
			}
			simtest.Give(t, s, order.Command{Do: order.Mark, X: x, Y: y, Ping: p.Number})
			n := s.Desk.LastContact()
			simtest.Give(t, s, order.Command{Do: order.Measure, Number: n, Text: "shadow", X: x, Y: y, X2: x + 2, Y2: y})
			simtest.Give(t, s, order.Command{Do: order.NameContact, Number: n, Text: "sinker"})
			simtest.Give(t, s, order.Command{Do: order.ClassContact, Number: n, Text: "mooring"})
			simtest.Give(t, s, order.Command{Do: order.SightContact, Number: n, X: x + 0.5, Y: y, Ping: p.Number + 1})
			simtest.Give(t, s, order.Command{Do: order.DescribeContact, Number: n, Text: "a block with a short shadow"})
			simtest.Give(t, s, order.Command{Do: order.RateContact, Number: n, Value: 0.8})
			simtest.Give(t, s, order.Command{Do: order.ContactAction, Number: n, Text: "dismiss", Reason: "it is ours"})
			simtest.Give(t, s, order.Command{Do: order.RemarkContact, Number: n, Text: "lift it"})
		},
		1500: func(s *session) {
			simtest.Give(t, s, order.Command{Do: order.Mark, X: 60, Y: 300})
			simtest.Give(t, s, order.Command{Do: order.DeleteContact, Number: s.Desk.LastContact()})
			simtest.Give(t, s, order.Command{Do: order.UndoContact})
			simtest.Give(t, s, order.Command{Do: order.UndoContact})
			simtest.Give(t, s, order.Command{Do: order.RedoContact})
			simtest.Give(t, s, order.Command{Do: order.Lookout})
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
	off := tended(t, 1000, map[int64]func(*session){0: func(s *session) { simtest.Give(t, s, order.Command{Do: order.Lookout, Value: 0}) }})
	if len(on.Desk.Contacts) == 0 || len(off.Desk.Contacts) != 0 {
		t.Errorf("marked %d with the lookout on and %d with it off, want some and none", len(on.Desk.Contacts), len(off.Desk.Contacts))
	}
}

// A command that cannot be carried out is one clear line and leaves no trace in
// the log.
func TestContactCommandsRefused(t *testing.T) {
	s := begin(t, simtest.Small(t))
	for _, test := range []struct {
		give order.Command
		want string
	}{
		{order.Command{Do: order.Mark, X: 1e6}, "nowhere near"},
		{order.Command{Do: order.Mark, X: 10, Y: 10, Ping: 3}, "ping 3 is not on the log"},
		{order.Command{Do: order.NameContact, Number: 4, Text: "x"}, "name_contact: no contact has the number 4"},
		{order.Command{Do: order.UndoContact}, "nothing to undo"},
		{order.Command{Do: order.Lookout, Value: 0.5}, "neither 0 nor 1"},
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
