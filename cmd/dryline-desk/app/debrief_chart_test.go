package app

import (
	"image"
	"slices"
	"testing"

	"dryline/sim/debrief"

	"github.com/hajimehoshi/ebiten/v2"
)

// A pipeline is drawn where it runs: its sign is no larger than others at any
// zoom, stands on the run where its middle is off the chart, and its name stays
// on the chart.
func TestPipelineIsDrawnAlongItsRun(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	w := watchUnderWay(t, g, "sloping-bank", 5)
	w.Build(g, g.area())
	d := w.debrief("")
	g.next = d
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	frame(g, dst)
	at := slices.IndexFunc(d.report.Targets, func(t debrief.Target) bool { return t.Kind == "pipeline" })
	if at < 0 {
		t.Fatal("the debrief knows no pipeline")
	}
	target := &d.report.Targets[at]
	path := d.pipelines[target.Name]
	for _, row := range []struct {
		name       string
		x, y, perM float64
	}{
		{"whole", 400, 500, 0.5},
		{"close up, its middle off the chart", path[0].X + 30, path[0].Y, 6},
		{"its end near the edge", path[0].X - 270, path[0].Y, 1},
	} {
		d.projection.X, d.projection.Y, d.projection.PerM = row.x, row.y, row.perM
		if size := d.size(target, g.Look); size > 10 {
			t.Errorf("%s: the sign is %g pixels, want a small one", row.name, size)
		}
		if x, y := d.at(target); !image.Pt(int(x), int(y)).In(d.chart) {
			t.Errorf("%s: the sign at %g, %g is off the chart %v", row.name, x, y, d.chart)
		}
		named := false
		watched(g, dst, func(s string, at image.Rectangle) {
			if s == target.Name+", missed" {
				named = true
				if !at.In(d.chart) {
					t.Errorf("%s: its name at %v is not on the chart %v", row.name, at, d.chart)
				}
			}
		})
		if !named {
			t.Errorf("%s: it is not named", row.name)
		}
	}
}

// Every sign of the debrief's chart is in the legend, which lies under the chart
// and not on it; who was found says how far off it was marked; names keep off
// each other however close the objects lie.
func TestDebriefChartSaysWhatItShows(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	w := watchUnderWay(t, g, "disused-anchorage", 20)
	w.Build(g, g.area())
	d := w.debrief("")
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
