//go:build !js

package main

import (
	"bytes"
	"image"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// A watch from the choice of the exercise to the debrief, by keys and mouse
// alone; the session saved at its end gives the same score without a window.
func TestAWatchFromEndToEnd(t *testing.T) {
	h := newHome(t)
	d := openDesk(t, h, 1280, 720)
	if d.look(); d.shown.Screen != "choose" {
		t.Fatalf("the window opens on %q, want choose", d.shown.Screen)
	}
	before := string(d.shown.State)
	d.tap(ebiten.KeyDown)
	if after := string(d.look().State); after == before {
		t.Errorf("the down key leaves %s chosen", before)
	}
	d.picture("choose")
	d.press("The first line")
	if got := string(d.look().State); got != `"first-line"` {
		t.Fatalf("a click chose %s, want \"first-line\"", got)
	}
	d.press("Begin the watch")
	d.until("the watch begins", 240, func(s *shown) bool { return s.Screen == "watch" && s.watch.Tick > 0 })

	winchAndSonar(d)
	helm(d)

	d.tap(ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual)
	if got := d.look().watch.Rate; got != 20 {
		t.Errorf("four times faster is %g, want 20", got)
	}
	// Without the detour the fish would be at the line some 46 s in; the replay
	// below checks where it was.
	d.until("the fish nears the line", 3000, func(s *shown) bool { return s.watch.Tick > 450 })
	d.tap(ebiten.KeyMinus, ebiten.KeyMinus)
	d.until("the fish is at the line", 3000, func(s *shown) bool { return s.watch.Tick > 474 })
	d.tap(ebiten.KeyL)
	if got := d.look().watch.Logging; got != "A" {
		t.Fatalf("logging %q, want A; notice %q", got, d.shown.Notice)
	}
	d.tap(ebiten.KeyF)
	if got := d.look().watch.RangeScale; got != 75 || d.shown.Notice == "" {
		t.Errorf("with the log on, F gives %g m and the notice %q; want 75 m and a word why", got, d.shown.Notice)
	}
	d.tap(ebiten.KeyEscape, ebiten.KeyEqual, ebiten.KeyEqual)
	d.until("the container is in the waterfall", 9000, func(s *shown) bool { return s.watch.Tick > 1450 })

	contact(d)

	d.tap(ebiten.KeySpace)
	d.until("time goes on", 240, func(s *shown) bool { return !s.watch.Paused })
	d.tap(ebiten.KeyL)
	d.until("the line is closed", 6000, func(s *shown) bool { return s.watch.Logging == "" && slices.Equal(s.watch.Lines, []string{"A"}) })
	s := d.toDebrief(3000)
	if s.watch.Points == nil {
		t.Fatal("the debrief tells no points")
	}
	points := *s.watch.Points
	d.picture("debrief")
	d.press("Save the report")
	if code := d.close(); code != 0 {
		t.Errorf("exit status %d, want 0; %s", code, &d.stderr)
	}
	if page, err := os.ReadFile(filepath.Join(h.out(), "first-line-3-debrief.html")); err != nil || !bytes.Contains(page, []byte("<html")) {
		t.Errorf("the report saved: %v, %d bytes; want a page", err, len(page))
	}
	if left := h.logs(t, "*-watch.jsonl"); len(left) > 0 {
		t.Errorf("a watch that is over is kept to be resumed: %v", left)
	}

	l, session, report := replayed(t, filepath.Join(h.out(), "first-line-3.jsonl"))
	if report.Score.Points != points {
		t.Errorf("the replay scores %v, the window said %v", report.Score.Points, points)
	}
	inTheLog(t, l)
	onTheRecord(t, session, report)
}

// winchAndSonar changes cable and range scale.
func winchAndSonar(d *desk) {
	d.t.Helper()
	d.tap(ebiten.KeyPageDown)
	d.look() // the next order builds on this one
	d.tap(ebiten.KeyPageDown)
	if got := d.look().watch.CableOrdered; got != 18 {
		d.t.Errorf("two metres paid out from 16 m: %g m ordered, want 18", got)
	}
	d.tap(ebiten.KeyPageUp)
	d.look()
	d.press("▲ Haul in")
	if got := d.look().watch.CableOrdered; got != 16 {
		d.t.Errorf("two metres hauled in from 18 m: %g m ordered, want 16", got)
	}
	d.tap(ebiten.KeyG)
	if got := d.look().watch.RangeScale; got != 100 {
		d.t.Errorf("range scale up from 75 m: %g m, want 100", got)
	}
	d.tap(ebiten.KeyF)
	if got := d.look().watch.RangeScale; got != 75 {
		d.t.Errorf("range scale down from 100 m: %g m, want 75", got)
	}
}

// helm steers by hand both ways and back to the line.
func helm(d *desk) {
	d.t.Helper()
	for _, k := range []ebiten.Key{ebiten.KeyLeft, ebiten.KeyRight} {
		d.hold(k, 30)
		if got := d.look().watch.Steering.Do; got != string(order.Rudder) {
			d.t.Errorf("%v held: steering by %q, want rudder", k, got)
		}
		d.letGo(k)
		if got := d.look().watch.Steering.Do; got != string(order.SteerHeading) {
			d.t.Errorf("%v let go: steering by %q, want steer_heading", k, got)
		}
	}
	d.tap(ebiten.KeyEnter)
	if got := d.look().watch.Steering; got.Do != string(order.SteerLine) || got.Line != "A" {
		d.t.Errorf("Enter: steering %v, want along A", got)
	}
}

// contact marks the container in the waterfall, measures, names and classes it
// while time stands still.
func contact(d *desk) {
	t := d.t
	t.Helper()
	d.tap(ebiten.KeySpace)
	if !d.look().watch.Paused {
		t.Fatal("time does not stand still")
	}
	fall := area(d.shown.Panes["fall"])
	m := d.picture("watch")
	// Starboard of the water column, below the lettering of the range marks.
	e, ok := strongest(m, image.Rect(middle(fall).X+fall.Dx()/12, fall.Min.Y+20, fall.Max.X, fall.Max.Y))
	if !ok {
		t.Fatalf("no strong echo with a shadow in the waterfall at %v", fall)
	}
	at := image.Pt((e.left.X+e.right.X)/2, (e.left.Y+e.right.Y)/2)
	d.tap(ebiten.KeyM)
	d.click(at)
	d.until("the contact is on the list", 240, func(s *shown) bool { return s.watch.Contacts == 1 && s.watch.Chosen == 1 })
	d.drag(e.left, e.right)
	d.tap(ebiten.KeyDigit3)
	d.drag(e.right, e.shadow)
	d.press(string(survey.Unclassified))
	d.press(string(survey.Classes()[1]))
	d.press("C1") // all of it is selected
	d.write("Box 1")
	d.tap(ebiten.KeyEnter)
	if got := d.look().watch; got.Contacts != 1 || !got.Paused {
		t.Errorf("typing a name reached the keys of the watch: %+v", got)
	}
	d.button("Box 1") // the field of the contact chosen
	d.picture("contact")
}

// inTheLog checks that what was done by hand is in the log, once each.
func inTheLog(t *testing.T, l *order.Log) {
	t.Helper()
	count := map[order.Do]int{}
	for _, c := range l.Commands {
		count[c.Do]++
	}
	for do, want := range map[order.Do]int{
		order.Lookout: 1, order.Cable: 4, order.Range: 2, order.Rudder: 2, order.SteerHeading: 2, order.SteerLine: 1, order.LogOn: 1, order.LogOff: 1,
		order.Mark: 1, order.Measure: 2, order.NameContact: 1, order.ClassContact: 1, order.Finish: 1,
	} {
		if count[do] != want {
			t.Errorf("%s is %d times in the log, want %d", do, count[do], want)
		}
	}
}

// onTheRecord checks what came of it.
func onTheRecord(t *testing.T, s *sim.Session, r debrief.Report) {
	t.Helper()
	if len(r.Lines) != 1 || r.Lines[0].Run < 180 {
		t.Errorf("lines in the debrief: %+v, want 180 m of A or more", r.Lines)
	}
	if n := len(s.Desk.Lines); n != 1 {
		t.Fatalf("%d lines on record, want 1", n)
	}
	// The log was to go on when the fish was on the line, not when the vessel was.
	if got := r.Lines[0].Run - 0.216*float64(r.Lines[0].Pings); math.Abs(got) > 6 {
		t.Errorf("the run with the log on is %.1f m more than the way through the water, want 0: the log went on too soon", got)
	}
	if n := len(s.Desk.Contacts); n != 1 {
		t.Fatalf("%d contacts on record, want 1", n)
	}
	c := s.Desk.Contacts[0]
	if c.Name != "Box 1" || c.Class != survey.Classes()[1] || !c.ByHand || !c.Measured {
		t.Errorf("the contact is %+v; want \"Box 1\", %s, by hand and measured", c, survey.Classes()[1])
	}
	for _, g := range r.Targets {
		if g.Name != "container" {
			continue
		}
		if g.Contact == nil || g.Distance == nil || *g.Distance > 6 {
			t.Fatalf("the container is not found: %+v", g)
		}
		// A pixel is 0.3 m of range and 0.36 m of way here, and the echo of the
		// near side is what is bright: within a third of the true length.
		if g.LengthByDesk == nil || math.Abs(*g.LengthByDesk-g.Length) > g.Length/3 {
			t.Errorf("length measured: %v m, true: %.1f m", deref(g.LengthByDesk), g.Length)
		}
		// Height is to the shadow as the fish's to the far end's slant range
		// (similar triangles); the far end is off by two pixels at most.
		if g.HeightByDesk == nil || math.Abs(*g.HeightByDesk-g.Height) > 0.3*g.Height {
			t.Errorf("height from the shadow: %v m, true: %.1f m", deref(g.HeightByDesk), g.Height)
		}
		return
	}
	t.Error("the debrief knows no container")
}

func deref(v *float64) any {
	if v == nil {
		return "none"
	}
	return *v
}

// replayed flies a saved session again without a window.
func replayed(t *testing.T, name string) (*order.Log, *sim.Session, debrief.Report) {
	t.Helper()
	l, s := again(t, name)
	witness := sim.Attend(s)
	if err := s.Replay(l, nil); err != nil {
		t.Fatal(err)
	}
	return l, s, debrief.Make(s, witness)
}

// again reads a saved session and makes a new one of its exercise.
func again(t *testing.T, name string) (*order.Log, *sim.Session) {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	l, err := order.ReadLog(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	ex, err := scenarios.Parse(l.Exercise+".yaml", l.Source)
	if err != nil {
		t.Fatal(err)
	}
	s, err := sim.NewSeeded(ex, l.Seeds)
	if err != nil {
		t.Fatal(err)
	}
	return l, s
}
