package app

import (
	"bytes"
	"strings"
	"testing"

	"dryline/scenarios"
	"dryline/sim/order"
)

// onTheWater is a watch with a helmsman, two vessels in sight, a buoy, and no engine.
func onTheWater(t *testing.T, g *Game) Screen {
	ex, err := scenarios.Find("first-line")
	if err != nil {
		t.Fatal(err)
	}
	source := bytes.Replace(ex.Source, []byte("help:\n"), []byte(`traffic:
  - { name: MV Pennant of the outer roads, at: [900, 250], course_deg: 270, speed_kn: 6 }
  - { name: tug, at: [160, 900], course_deg: 180, speed_kn: 5 }
snags:
  - { name: pot, at: [180, 140] }
events:
  - { kind: engine_failure, at_s: 3, for_s: 400 }
help:
  coach: false
  helmsman: true
  mishears_percent: 0
`), 1)
	if ex, err = scenarios.Parse("water.yaml", source); err != nil {
		t.Fatal(err)
	}
	s, err := Start(g, ex)
	if err != nil {
		t.Fatal(err)
	}
	w := s.(*Duty)
	w.give(order.Command{Do: order.Say, Text: "make four knots"})
	w.crew.SetRate(1, false)
	for range 6 {
		w.crew.Pass(1, 1e12)
		w.view = w.crew.View()
		w.takeRows()
	}
	return w
}

// What the crew plainly sees is told on the page of the watch and drawn on the chart, and
// who is in sight can be called.
func TestWatchTellsOfTheWater(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1920, 1080, 1)
	w := onTheWater(t, g).(*Duty)
	w.Build(g, g.area())
	var told []string
	for _, m := range w.remarks(g) {
		told = append(told, m.head+": "+m.text)
	}
	all := strings.Join(told, "\n")
	for _, want := range []string{"On deck: The engine gives no thrust.", "You said “make four knots”.", "MV Pennant", "bearing", "nearest"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not told in\n%s", want, all)
		}
	}
	w.chart.fill(-1, false)
	if len(w.chart.plot.Ships) != 2 || len(w.chart.plot.Buoys) != 2 {
		t.Errorf("%d ships and %d figures of buoys on the chart", len(w.chart.plot.Ships), len(w.chart.plot.Buoys))
	}
	if got := calls(w.Watch); len(got) != 2 {
		t.Fatalf("%q can be called", got)
	}
	w.give(order.Command{Do: order.CallTraffic, Text: "tug"})
	w.crew.Pass(1, 1e12)
	w.view = w.crew.View()
	if got := calls(w.Watch); len(got) != 1 || got[0] == "tug" {
		t.Errorf("after the call %q can be called", got)
	}
}
