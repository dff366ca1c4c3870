package app

import (
	"image"
	"slices"
	"testing"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/sim/survey/coverage"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// The chart of the watch names what is charted, says how much ground was passed and not seen, and looks from where
// pings were logged and nowhere else; the debrief's has none of it.
func TestTheChartSaysWhatWasNotSeen(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	w := watchUnderWay(t, g, "first-line", 40)
	g.next = w
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	letters := func() (all []string) {
		frame(g, dst)
		v := *w.view
		v.Unseen = &crew.Unseen{Holidays: 1, SquareMetres: 1234.4, Rows: [][]coverage.Row{{{Y: 200, West: 120, East: 180}}}}
		w.view = &v
		w.chart.fill(0, false)
		look.Watcher = func(s string, _, _ image.Rectangle, _ text.Face) { all = append(all, s) }
		g.skipped = true
		g.Draw(dst)
		look.Watcher = nil
		return all
	}
	said := letters()
	for _, want := range []string{"mooring block", "hatched: passed, not seen, 1234 m²"} {
		if !slices.Contains(said, want) {
			t.Errorf("the chart does not say %q: %q", want, said)
		}
	}
	logged := 0
	for _, p := range w.view.Track {
		if p.Line != "" {
			logged++
		}
	}
	if n := len(w.chart.plot.Looks); n == 0 || n != logged {
		t.Errorf("%d places looked from, of %d that were logged", n, logged)
	}
	d := debriefed(t, g, 30)
	if p := &d.plot; len(p.Unseen)+len(p.Looks)+len(p.Charted) > 0 {
		t.Error("the debrief's chart has what the watch's had")
	}
}
