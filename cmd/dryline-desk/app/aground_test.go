package app

import (
	"image"
	"testing"

	"dryline/cmd/dryline-desk/crew"
	"dryline/sim/passage"

	"github.com/hajimehoshi/ebiten/v2"
)

// The side view says that the fish touched something while that is fresh, and
// that it is aground for as long as the cable tells that it drags.
func TestKnocksAreTold(t *testing.T) {
	_, w := fallWatch(t, "first-line", 5)
	for _, row := range []struct {
		name     string
		now      float64
		touching bool
		alarms   []passage.Alarm
		says     string
		aground  bool
	}{
		{"nothing touched", 100, false, nil, "", false},
		{"another mishap", 100, false, []passage.Alarm{{Time: 60, What: passage.Slipped}}, "", false},
		{"just now", 100, true, []passage.Alarm{{Time: 98, What: passage.Knocked}}, "FISH TOUCHED SOMETHING", true},
		{"just now, and free", 100, false, []passage.Alarm{{Time: 98, What: passage.Knocked}}, "FISH TOUCHED SOMETHING", false},
		{"and dragged since", 100, true, []passage.Alarm{{Time: 60, What: passage.Knocked}, {Time: 70, What: passage.Slipped}}, "FISH AGROUND", true},
		{"and free since", 100, false, []passage.Alarm{{Time: 60, What: passage.Knocked}}, "", false},
		{"twice", 100, true, []passage.Alarm{{Time: 60, What: passage.Knocked}, {Time: 80, What: passage.Knocked}}, "FISH AGROUND", true},
	} {
		v := *w.view
		v.Now, v.Bridge.Alarms, v.Bridge.Touching = row.now, row.alarms, row.touching
		w.view = &v
		if says, aground := w.section.knocked(); says != row.says || aground != row.aground {
			t.Errorf("%s: %q, aground %v; want %q, %v", row.name, says, aground, row.says, row.aground)
		}
	}
}

// Aground the section says so and keeps no bottom that is not heard; with the
// bottom lost it says how deep it was; pings without an echo are said to be.
func TestWhatIsNotHeardIsSaid(t *testing.T) {
	g, w := fallWatch(t, "first-line", 60)
	g.next = w
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	frame(g, dst)
	told := func() map[string]bool {
		out := map[string]bool{}
		watched(g, dst, func(s string, _ image.Rectangle) { out[s] = true })
		return out
	}
	if s := told(); !s["not heard yet"] || s["no echo"] {
		t.Errorf("all well: not heard ahead %v, no echo %v; want true and false", s["not heard yet"], s["no echo"])
	}
	last := w.fall.history[len(w.fall.history)-1]
	for range 200 {
		w.fall.history = append(w.fall.history, crew.Ping{Number: last.Number, Fix: last.Fix, Height: last.Height, RangeScale: last.RangeScale, Echo: make([]bool, len(last.Echo))})
	}
	if s := told(); !s["bottom lost, last 18 m"] || !s["no echo"] || s["not heard yet"] {
		t.Errorf("deaf: %v; want the bottom lost and no echo", s)
	}
	v := *w.view
	v.Bridge.Alarms, v.Bridge.Touching = []passage.Alarm{{Time: v.Now - 10, What: passage.Knocked}}, true
	w.view = &v
	aground := func(when string) {
		t.Helper()
		if s := told(); !s["FISH AGROUND"] || s["bottom lost, last 18 m"] || s["not heard yet"] {
			t.Errorf("%s: %v; want that said and no bottom", when, s)
		}
	}
	aground("aground")
	// A ping that finds a bottom between two knocks does not set it free.
	w.showRow(&last)
	w.fall.history = append(w.fall.history, last)
	aground("aground, one ping heard")
	w.fall.history = append(w.fall.history, crew.Ping{Number: last.Number, Fix: last.Fix, Height: last.Height, RangeScale: last.RangeScale, Echo: make([]bool, len(last.Echo))})
	aground("aground, deaf again")
}
