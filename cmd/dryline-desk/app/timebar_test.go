package app

import (
	"fmt"
	"image"
	"strings"
	"testing"
	"time"

	"dryline/sim/debrief"

	"github.com/hajimehoshi/ebiten/v2"
)

// busy is a report with everything on its timeline, of a thousand seconds.
func busy() debrief.Report {
	r := debrief.Report{Simulated: 1000, Wanted: debrief.Wanted{AltitudeMin: 8, AltitudeMax: 20}}
	r.Exercise.Start = time.Date(2031, 5, 1, 7, 40, 0, 0, time.UTC)
	r.Timeline = debrief.Timeline{
		Lines: []debrief.Stretch{{What: "A", From: 100, To: 300}, {What: "B", From: 500, To: 800}},
		Hints: []debrief.Stretch{
			{What: "height", Kind: "note", From: 120, To: 180, Says: "a note"},
			{What: "speed", Kind: "caution", From: 200, To: 260, Says: "a caution"},
			{What: "floor", Kind: "alarm", From: 240, To: 250, Says: "an alarm"},
		},
		Orders: []debrief.Moment{{At: 400, What: "range", Says: "range scale 50 m"}},
		Marks:  []debrief.Moment{{At: 620, What: "true", Says: "C1: true"}, {At: 640, What: "false", Says: "C2: false"}, {At: 660, What: "candidate", Says: "C3"}},
	}
	for s := 100.0; s <= 800; s += 2 {
		if s <= 300 || s >= 500 {
			r.Timeline.Time, r.Timeline.Height = append(r.Timeline.Time, s), append(r.Timeline.Height, 12)
		}
	}
	r.Mishaps = []debrief.Mishap{{Time: 700, What: "grounded", Says: "the fish touched the floor"}}
	r.Score.Items = []debrief.Item{{Causes: []debrief.Cause{{Kind: "whole", From: 0, To: 1000, Points: 9}, {Kind: "low", From: 690, To: 710, Points: 3}}}}
	r.Score.Better = r.Score.Items[0].Causes
	return r
}

// What lies under a pixel of the bar is what the timeline has there, and a click goes
// to its moment; the keys go from one event to the next and back.
func TestTheBarLeadsToMoments(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	r := busy()
	b := newTimebar(&r)
	if b.at != 690 {
		t.Errorf("it opens at %g s, want 690, what cost most of what has its time", b.at)
	}
	l := g.Look
	b.lay(l, image.Rect(0, 500, 1280, 500+b.tall(l)))
	for _, row := range []struct {
		lane lane
		at   float64
		says string // empty for nothing
		goes float64
	}{
		{lineLane, 200, "line A", 200}, {lineLane, 400, "", 400}, {orderLane, 402, "range scale 50 m", 400},
		{markLane, 621, "C1", 620}, {markLane, 639, "C2", 640}, {mishapLane, 703, "touched the floor", 700}, {mishapLane, 300, "", 300},
	} {
		at := image.Pt(int(b.x(row.at)), (b.lane[row.lane].Min.Y+b.lane[row.lane].Max.Y)/2)
		h := b.under(at, l)
		if got := fmt.Sprint(h); (h == nil) != (row.says == "") || !strings.Contains(got, row.says) {
			t.Errorf("%s at %g s: got %s, want %q", laneNames[row.lane], row.at, got, row.says)
		}
		if b.press(at, l); b.at < row.goes-1 || b.at > row.goes+1 {
			t.Errorf("a click on %s at %g s chooses %g s, want %g", laneNames[row.lane], row.at, b.at, row.goes)
		}
	}
	for _, kind := range []string{"note", "caution", "alarm"} {
		at := image.Pt(int(b.x(245)), (b.hintLane(kind).Min.Y+b.hintLane(kind).Max.Y)/2)
		if h := b.under(at, l); kind != "note" && (h == nil || h.kind != kind) {
			t.Errorf("in the lane of %s lies %+v", kind, h)
		}
	}
	var went []float64
	b.choose(0)
	for range 40 {
		was := b.at
		if b.step(1); b.at != was {
			went = append(went, b.at)
		}
	}
	want := []float64{100, 120, 200, 240, 300, 400, 500, 620, 640, 660, 690, 700, 800, 1000}
	if fmt.Sprint(went) != fmt.Sprint(want) {
		t.Errorf("right goes to %v, want %v", went, want)
	}
	for i := len(want) - 2; i >= 0; i-- {
		if b.step(-1); b.at != want[i] {
			t.Errorf("left goes to %g, want %g", b.at, want[i])
		}
	}
	if says := b.says(245); !strings.Contains(says, "an alarm") || !strings.Contains(says, "line A") || !strings.Contains(says, "12 %") {
		t.Errorf("at 245 s it says %q", says)
	}
	if _, ok := b.height(400); ok {
		t.Error("a height is told where nothing was logged")
	}
}

// With everything on the bar, and the pointer on any of it, nothing that is lettered
// is cut, at any size.
func TestABusyBarIsDrawnWhole(t *testing.T) {
	g := NewGame(&memory{}, false)
	d := debriefed(t, g, 5)
	d.report.Timeline, d.report.Mishaps, d.report.Simulated = busy().Timeline, busy().Mishaps, 1000
	d.bar = newTimebar(&d.report)
	for _, size := range shownSizes() {
		g.Resize(size.wide, size.tall, size.device)
		g.next = d
		dst := ebiten.NewImage(size.wide, size.tall)
		frame(g, dst)
		frame(g, dst)
		check(t, g, dst, fmt.Sprintf("%dx%d at %g", size.wide, size.tall, size.device))
		for _, s := range []float64{0, 245, 640, 999} {
			d.bar.on, d.bar.gone = true, image.Pt(int(d.bar.x(s)), d.bar.lane[coachLane].Max.Y-2)
			watchedBy(func() { d.Over(g, dst) }, func(says string, at image.Rectangle) {
				if !at.In(g.area()) {
					t.Errorf("the tip %q at %v is not in the window", says, at)
				}
			})
		}
		d.bar.on = false
		dst.Deallocate()
	}
}
