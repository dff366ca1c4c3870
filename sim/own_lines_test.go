package sim_test

import (
	"slices"
	"strings"
	"testing"

	"dryline/sim/debrief"
	"dryline/sim/exercise"
	"dryline/sim/hand"
	"dryline/sim/order"
	"dryline/sim/report"
	"dryline/sim/simtest"
)

// Lines of one's own that are ordered before the first tick are run in place of those given: by the mate,
// for the debrief, and for the events that were to happen on lines given. The log replays to the same bytes.
func TestOwnLinesAreRunInPlaceOfThoseGiven(t *testing.T) {
	ex := simtest.Small(t)
	ex.Plan.TimeLimit = 3000
	ex.Events = []exercise.Event{{Kind: exercise.AltimeterDropout, Line: ex.Lines[ex.Plan.Order[1].Line].Name, Along: 10, For: 5}}
	given := slices.Clone(ex.Plan.Order)
	s := begin(t, ex)
	if err := s.Give(order.Command{Do: order.OwnLines, Value: 30, Value2: 10}); err == nil {
		t.Error("no line was added, and they are to be run")
	}
	a := ex.Lines[0].A
	simtest.Give(t, s,
		order.Command{Do: order.AddLine, Line: "W1", X: a.X + 8, Y: a.Y, X2: a.X + 8, Y2: a.Y + 70},
		order.Command{Do: order.AddLine, Line: "W2", X: a.X + 40, Y: a.Y + 70, X2: a.X + 40, Y2: a.Y},
		order.Command{Do: order.OwnLines, Value: 33, Value2: 12})
	for _, c := range []order.Command{{Do: order.OwnLines, Value: 30}, {Do: order.OwnLines, Value: -1}, {Do: order.OwnLines, Value2: 1e5}} {
		if err := s.Give(c); err == nil {
			t.Errorf("%+v was taken", c)
		}
	}
	if b := s.Brief; b.Plan.RunIn != 33 || b.Plan.RunOut != 12 || len(b.Plan.Order) != 2 || !slices.Equal(ex.Plan.Order, given) {
		t.Errorf("the plan is %+v, and that of the exercise itself %v", b.Plan, ex.Plan.Order)
	}
	s.Passage.SetHand(hand.NewMate(s.Brief))
	for !s.Done() {
		s.Advance(200)
	}
	var names []string
	for _, l := range s.Desk.Lines {
		names = append(names, l.Name)
	}
	if !slices.Equal(names, []string{"W1", "W2"}) {
		t.Fatalf("logged %v after %.0f s", names, s.Now())
	}
	if h := s.Passage.Happened(); len(h) != 1 || h[0].Line != "W2" {
		t.Errorf("on the second line run there happened %+v", h)
	}
	if r := debrief.Make(s.Session, s.Truth); len(r.LinesNotRun) > 0 || r.Lines[1].Reversed {
		t.Errorf("by the debrief %v are not run, and the second is reversed: %v", r.LinesNotRun, r.Lines[1].Reversed)
	}
	for _, l := range s.Exercise.Sailed() {
		if !slices.Contains(names, l.Name) {
			t.Errorf("%s was set aside and counts as sailed", l.Name)
		}
	}
	_, holidays, err := report.Covered(s.Brief, s.Desk)
	if err != nil {
		t.Fatal(err)
	}
	for _, h := range holidays {
		for _, l := range ex.Lines {
			if strings.Contains(h.Reason, l.Name+" ") {
				t.Errorf("a holiday is told of by a line that was set aside: %s", h.Reason)
			}
		}
	}
	if len(holidays) == 0 {
		t.Error("two short lines leave no holiday")
	}
	same(t, "replay", s, replayed(t, s))

	late := begin(t, simtest.Small(t))
	simtest.Give(t, late, order.Command{Do: order.AddLine, Line: "W1", X: a.X + 8, Y: a.Y, X2: a.X + 8, Y2: a.Y + 70})
	late.Advance(1)
	if err := late.Give(order.Command{Do: order.OwnLines, Value: 30}); err == nil {
		t.Error("once the watch has begun the plan can be set aside")
	}
}
