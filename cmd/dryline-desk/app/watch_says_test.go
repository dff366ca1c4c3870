package app

import (
	"image"
	"strings"
	"testing"

	"dryline/sim/survey"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Behind the pace of the water every other frame is left out, otherwise none.
func TestEveryOtherFrameIsLeftOutWhenLate(t *testing.T) {
	g, w := fallWatch(t, "first-line", 2)
	g.screen = w
	g.ui.Container = w.Build(g, g.area())
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	for _, row := range []struct {
		name    string
		reached float64
		want    int // of six frames
	}{{"not known", 0, 6}, {"in time", 1, 6}, {"faster", 12, 6}, {"late", 0.3, 3}} {
		v := *w.view
		v.Reached = row.reached
		w.view = &v
		drawn := 0
		for range 6 {
			lettered := false
			watched(g, dst, func(string, image.Rectangle) { lettered = true })
			if lettered {
				drawn++
			}
		}
		if drawn != row.want {
			t.Errorf("%s: %d of 6 frames are drawn, want %d", row.name, drawn, row.want)
		}
	}
}

// The chart shows the plan whole in whatever pane it has, until a person moves
// it.
func TestChartIsFittedToItsPane(t *testing.T) {
	g, w := fallWatch(t, "first-line", 2)
	whole := func() bool {
		for _, l := range w.brief.Lines {
			for _, p := range [][2]float64{{l.A.X, l.A.Y}, {l.B.X, l.B.Y}} {
				x, y := w.chart.At(p[0], p[1])
				if !image.Pt(int(x), int(y)).In(w.at.chart) {
					return false
				}
			}
		}
		return true
	}
	for _, size := range []image.Point{{1920, 1080}, {1280, 720}, {2560, 1440}} {
		before := w.chart.PerM
		g.Resize(size.X, size.Y, 1)
		w.Build(g, g.area())
		if !whole() || w.chart.PerM == before {
			t.Errorf("%v: the plan is whole: %v, at %g pixels a metre after %g", size, whole(), w.chart.PerM, before)
		}
	}
	w.chart.placed = true
	before := w.chart.PerM
	g.Resize(1280, 720, 1)
	w.Build(g, g.area())
	if w.chart.PerM != before {
		t.Errorf("moved by hand, the chart goes from %g to %g pixels a metre", before, w.chart.PerM)
	}
}

// The heading of a waterfall tells what was cut off and how its picture is made.
func TestHeadingTellsTheTone(t *testing.T) {
	g, w := fallWatch(t, "first-line", 2)
	for _, row := range []struct {
		name                          string
		clipped, brightness, contrast float64
		recorded                      bool
		want                          string
	}{
		{"as usual", 0.0001, 0, DefaultSettings().Contrast, false, ""},
		{"a bright thing", 0.004, 0, DefaultSettings().Contrast, false, ", chequered: cut off, 0.4 %"},
		{"all of it", 0.54, 0.03, 1.3, true, ", chequered: cut off, 54 %, as recorded, brightness +3 %, contrast 1.3"},
	} {
		v := *w.view
		v.Levels = []survey.RecordLevel{{Clipped: row.clipped}}
		w.view, w.fall.brightness, w.fall.asRecorded, g.Settings.Contrast = &v, row.brightness, row.recorded, row.contrast
		if got := w.fall.pictureSays(g, 0); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}

// With one channel there is no next; with an echo missing the page of the sonar
// says that nothing is heard, whatever was heard before.
func TestSonarPageSaysWhatIsSo(t *testing.T) {
	for _, row := range []struct {
		exercise string
		disabled bool
	}{{"first-line", true}, {"disused-anchorage", false}} {
		g, w := fallWatch(t, row.exercise, 20)
		w.side.tab = tabSonar
		c := w.Build(g, g.area())
		found := 0
		eachWidget(c, func(w widget.PreferredSizeLocateableWidget, label string) {
			if label == "Channel" || label == "Next" {
				found++
				if w.GetWidget().Disabled != row.disabled {
					t.Errorf("%s: %q disabled %v, want %v", row.exercise, label, w.GetWidget().Disabled, row.disabled)
				}
			}
		})
		if found != 2 {
			t.Errorf("%s: %d controls for the channel, want 2", row.exercise, found)
		}
		w.side.sonar.update(g, w.Watch)
		if says := w.side.sonar.full.Label; !strings.HasPrefix(says, "The ground fills") {
			t.Errorf("%s: heard, it says %q", row.exercise, says)
		}
		deaf := w.fall.history[len(w.fall.history)-1]
		deaf.Echo = make([]bool, len(deaf.Echo))
		w.fall.history = append(w.fall.history, deaf)
		w.side.sonar.update(g, w.Watch)
		if says := w.side.sonar.full.Label; says != "Nothing is heard now." {
			t.Errorf("%s: deaf, it says %q", row.exercise, says)
		}
	}
}
