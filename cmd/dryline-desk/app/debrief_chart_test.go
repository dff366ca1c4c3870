package app

import (
	"image"
	"slices"
	"testing"

	"dryline/sim/debrief"

	"github.com/hajimehoshi/ebiten/v2"
)

// Every sign of the debrief's chart is in the legend, which lies under the chart
// and not on it; who was found says how far off it was marked; names keep off
// each other however close the objects lie.
func TestDebriefChartSaysWhatItShows(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	w := watchUnderWay(t, g, "disused-anchorage", 20)
	w.Build(g, g.area())
	d := NewDebrief(w, "")
	number, east, north, off := 1, 3.0, -4.0, 5.0
	d.report.Targets = nil
	for i, name := range []string{"ballast stone", "steel drum", "old anchor", "spar", "tyre"} {
		target := debrief.Target{Name: name, X: 200 + 3*float64(i), Y: 300, Length: 2}
		if i < 2 {
			target.Contact, target.East, target.North, target.Distance = &number, &east, &north, &off
		}
		d.report.Targets = append(d.report.Targets, target)
	}
	d.report.FalseContacts = []debrief.FalseContact{{Number: 2, X: 260, Y: 320}}
	g.next = d
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	frame(g, dst)
	check(t, g, dst, "objects close to each other")
	var said, onChart []string
	watched(g, dst, func(s string, at image.Rectangle) {
		switch {
		case at.In(d.legend):
			said = append(said, s)
		case at.In(d.chart):
			onChart = append(onChart, s)
		case at.Overlaps(d.legend):
			t.Errorf("%q at %v lies over the edge of the legend at %v", s, at, d.legend)
		}
	})
	for _, e := range legendEntries() {
		if !slices.Contains(said, e.says) {
			t.Errorf("the legend does not say %q", e.says)
		}
	}
	for _, want := range []string{"ballast stone, found, 5.0 m off", "steel drum, found, 5.0 m off", "old anchor, missed", "spar, missed", "tyre, missed"} {
		if !slices.Contains(onChart, want) {
			t.Errorf("the chart does not say %q: %q", want, onChart)
		}
	}
	if d.legend.Overlaps(d.chart) {
		t.Errorf("the legend at %v lies on the chart at %v", d.legend, d.chart)
	}
}
