package app

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"dryline/sim/coach"
	"dryline/sim/order"
	"dryline/sim/survey"
)

// What comes next, in one line, whatever state the lines are in: figures by where the fish is on lines that run
// due north.
func TestWhatComesNext(t *testing.T) {
	_, w := fallWatch(t, "first-line", 2)
	a, b := w.brief.Lines[0], w.brief.Lines[1]
	if a.A.X != a.B.X || !(a.A.Y < a.B.Y) || !(b.A.Y < b.B.Y) {
		t.Fatalf("lines %v and %v do not run due north", a, b)
	}
	for _, row := range []struct {
		name    string
		at      float64 // of the fish, north of the start of A
		do      order.Do
		logging bool
		shares  map[string]float64
		want    string
	}{
		{"on the run-in", -37, order.SteerLine, false, nil, "Next: log on when the fish comes to A, 37 m on (L)."},
		{"at its start", 2, order.SteerLine, false, nil, "Next: log on, the fish is on A (L)."},
		{"logging", 100, order.SteerLine, true, map[string]float64{"A": 0.3}, fmt.Sprintf("Next: log off when the fish is past the end of A, %.0f m on (L).", a.B.Y-a.A.Y-100)},
		{"past its end", a.B.Y - a.A.Y + 5, order.SteerLine, true, map[string]float64{"A": 0.99}, "Next: log off, the fish is past the end of A (L)."},
		{"turning", -80, order.Turn, false, nil, "Next: the run-in of A, after the turn"},
		{"A done, to the north of it", a.B.Y - a.A.Y + 60, order.SteerLine, false, map[string]float64{"A": 1}, "Next: line B from its north end: choose it (N, R), then steer to it (Enter)."},
		{"A done, to the south of it", -60, order.SteerHeading, false, map[string]float64{"A": 1}, "Next: line B from its south end: choose it (N, R), then steer to it (Enter)."},
		{"both done", 0, order.SteerHeading, false, map[string]float64{"A": 1, "B": survey.Whole}, "Next: every line is logged."},
	} {
		v := *w.view
		v.Shares, v.Bridge.Logging = row.shares, ""
		if row.logging {
			v.Bridge.Logging = "A"
		}
		v.Bridge.Steering = order.Command{Do: row.do, Line: "A"}
		v.Fix.X, v.Fix.Y = a.A.X, a.A.Y+row.at
		v.Reading.X, v.Reading.Y = a.A.X, a.A.Y+row.at+15
		w.view = &v
		if got := w.nextStep(); !strings.HasPrefix(got, row.want) {
			t.Errorf("%s: %q, want %q", row.name, got, row.want)
		}
	}
}

// The coach's note to start the log stands on for some seconds when it is started; the page has it no more.
func TestNotesThatAreVoidGo(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	w := onTheLine(t, g)
	has := func(hints []coach.Hint) bool {
		return slices.ContainsFunc(hints, func(h coach.Hint) bool { return strings.Contains(h.Text, "start the log") })
	}
	pass := func(seconds float64) {
		w.crew.Pass(seconds, 1e12)
		w.view = w.crew.View()
	}
	w.crew.SetRate(1, false)
	for n := 0; !has(w.view.Hints); n++ {
		if n == 100 {
			t.Fatal("the coach never says to start the log")
		}
		pass(1)
	}
	if !has(w.hints(g)) {
		t.Error("the page has no note to start the log")
	}
	w.give(order.Command{Do: order.LogOn, Line: "A"})
	pass(1)
	if w.view.Bridge.Logging != "A" || !has(w.view.Hints) {
		t.Fatalf("logging %q, and the coach's own notes are %v; want A, and the note to stand yet", w.view.Bridge.Logging, w.view.Hints)
	}
	if has(w.hints(g)) {
		t.Error("the log is on, and the page says to start it")
	}
}
