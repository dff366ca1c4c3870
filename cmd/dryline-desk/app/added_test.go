package app

import (
	"slices"
	"strings"
	"testing"

	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// Lines that are added at the desk in the middle of a watch can be chosen, steered to and logged when
// it goes on: chart, helm, what comes next and what is left all have them.
func TestLinesAddedAtTheDeskAreRunInTheWatch(t *testing.T) {
	g := NewGame(&memory{}, false)
	d := atTheDesk(t, g, false)
	d.turn(g, 5)
	settleDesk(t, g, d)
	station, ok := d.station().(*holidayStation)
	if !ok {
		t.Fatalf("the sixth station is %s", d.station().name())
	}
	d.chosen = 1
	for _, a := range station.acts() {
		if a.key == ebiten.KeyA {
			a.do(g)
		}
	}
	d.leave(g)
	w, ok := g.next.(*Duty)
	if !ok {
		t.Fatal("it does not lead back to the watch")
	}
	g.screen, g.next = w, nil
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	g.stale = true
	w.pace.set(1, true)
	frame(g, dst)
	if n := len(w.view.Added); n != 4 {
		t.Fatalf("%d lines were added, want 4: %s", n, g.Notice)
	}
	const name = "about1-1"
	var drawn bool
	for _, l := range w.chart.plot.Lines {
		drawn = drawn || l.Name == name
	}
	if says := w.linesSay(); !drawn || !strings.Contains(says, name+" to do") || !slices.Contains(w.linesLeft(), name) {
		t.Errorf("on the chart: %v; said %q; left %q", drawn, says, w.linesLeft())
	}
	v := *w.view
	v.Shares = map[string]float64{"A": 1, "B": 1}
	now := w.view
	w.view = &v
	if says := w.nextStep(); !strings.Contains(says, "line "+name+" from its ") {
		t.Errorf("with the lines of the plan logged: %q", says)
	}
	w.view = now

	for range w.lines() {
		if w.helm.chosen().Name == name {
			break
		}
		w.helm.choose(1)
	}
	if w.helm.chosen().Name != name {
		t.Fatalf("going through the lines never comes to %s", name)
	}
	w.helm.steerToLine()
	w.crew.SetRate(1, false)
	l, reversed := w.helm.measured()
	track := l.Track(reversed)
	pass := func(until func(along, across float64) bool) {
		t.Helper()
		for range 1500 {
			w.crew.Pass(1, 1e12)
			w.view = w.crew.View()
			along, across := track.Offset(w.view.Fix.X, w.view.Fix.Y)
			if until(along, across) {
				return
			}
		}
		t.Fatalf("it never comes there: steering %+v, complaint %q", w.view.Bridge.Steering, w.view.Complaint)
	}
	pass(func(along, _ float64) bool { return w.view.Bridge.Steering.Do == order.SteerLine && along > 0 })
	if says := w.nextStep(); says != "Next: log on, the fish is on "+name+" (L)." {
		t.Errorf("on the line: %q", says)
	}
	w.helm.toggleLog()
	pass(func(along, across float64) bool { return along > track.Length() })
	w.helm.toggleLog()
	w.view = w.crew.View()
	if !slices.Contains(w.view.Lines, name) || w.view.Shares[name] < survey.Whole {
		t.Errorf("logged %v, %.2f of %s", w.view.Lines, w.view.Shares[name], name)
	}
	if says := w.linesSay(); !strings.Contains(says, name+" done") || slices.Contains(w.linesLeft(), name) {
		t.Errorf("said %q, left %q", says, w.linesLeft())
	}
}
