//go:build !js

package main

import (
	"bytes"
	"context"
	"encoding/json"
	"image"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"dryline/sim/flight"
	"dryline/sim/order"
	"dryline/sim/product"

	"github.com/hajimehoshi/ebiten/v2"
)

// atDesk holds what the desk tells of itself.
type atDesk struct {
	Station   string  `json:"station"`
	Rows      int     `json:"rows"`
	Run       int     `json:"run"`
	Pieces    int     `json:"pieces"`
	Worked    bool    `json:"worked"`
	Over      bool    `json:"over"`
	Making    bool    `json:"making"`
	Ready     bool    `json:"ready"`
	Painted   bool    `json:"painted"`
	Chip      bool    `json:"chip"`
	Contacts  int     `json:"contacts"`
	Added     int     `json:"added"`
	Holidays  int     `json:"holidays"`
	Drawn     bool    `json:"drawn"`
	DrawnUp   bool    `json:"drawn_up"`
	Layback   bool    `json:"layback"`
	Undecided int     `json:"undecided"`
	PerM      float64 `json:"per_m"`
}

// deskSays returns what the desk told last.
func (d *desk) deskSays() (s atDesk) {
	d.t.Helper()
	if err := json.Unmarshal(d.look().State, &s); err != nil {
		d.t.Fatal(err)
	}
	return s
}

// desks looks until the desk says so.
func (d *desk) desks(what string, so func(s atDesk) bool) (s atDesk) {
	d.t.Helper()
	d.until(what, 60000, func(*shown) bool {
		s = atDesk{}
		return json.Unmarshal(d.shown.State, &s) == nil && so(s)
	})
	return s
}

// The desk by keys and mouse, once while the watch is open and once when it is over: the record looked
// through, the bottom put right, the mosaic made again, a contact judged, lines added, reports drawn up. The
// log flown again without a window gives the same survey, and the reports that the window saved.
func TestTheDeskFromEndToEnd(t *testing.T) {
	if testing.Short() {
		t.Skip("flies a line in a window, and again without")
	}
	h := newHome(t)
	d := openDesk(t, h, 1280, 720, "first-line")
	d.until("the watch begins", 240, func(s *shown) bool { return s.Screen == "watch" && s.watch.Tick > 0 })
	d.tap(ebiten.KeyD)
	if s := d.look(); s.Screen != "watch" || !contains(s.Notice, "nothing on the desk") {
		t.Errorf("with no line closed D leads to %s, %q", s.Screen, s.Notice)
	}
	d.tap(ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual)
	d.until("the fish nears the line", 3000, func(s *shown) bool { return s.watch.Tick > 470 })
	d.tap(ebiten.KeyL)
	d.until("the container is on the record", 9000, func(s *shown) bool { return s.watch.Tick > 1450 })
	d.tap(ebiten.KeyD)
	if s := d.look(); s.Screen != "watch" || !contains(s.Notice, "stop the log") {
		t.Errorf("with the log on D leads to %s, %q", s.Screen, s.Notice)
	}
	d.tap(ebiten.KeyL)
	d.until("the line is closed", 6000, func(s *shown) bool { return s.watch.Logging == "" && slices.Equal(s.watch.Lines, []string{"A"}) })
	d.tap(ebiten.KeyD)
	tick := d.until("the desk", 240, func(s *shown) bool { return s.Screen == "desk" }).watch.Tick

	atTheRecord(d)
	atTheMosaic(d)
	atTheContacts(d)

	d.tap(ebiten.KeyF7)
	found := d.desks("holidays", func(s atDesk) bool { return s.Holidays > 0 })
	d.tap(ebiten.KeyL)
	if s := d.deskSays(); s.Added == 0 || found.Added != 0 {
		t.Errorf("%d lines added to fill a holiday", s.Added)
	}
	d.picture("holidays")
	d.ticks(120)
	if got := d.look().watch.Tick; got != tick {
		t.Errorf("at the desk time went on from tick %d to %d", tick, got)
	}
	d.tap(ebiten.KeyD)
	s := d.until("the watch again", 240, func(s *shown) bool { return s.Screen == "watch" && s.watch.Tick > tick })
	if s.watch.Contacts != 1 {
		t.Errorf("back at the watch there are %d contacts, want 1", s.watch.Contacts)
	}

	d.tap(ebiten.KeyF9, ebiten.KeyF9)
	d.until("the desk when the watch is over", 3000, func(s *shown) bool { return s.Screen == "desk" })
	d.tap(ebiten.KeyF7)
	over := d.desks("holidays once more", func(s atDesk) bool { return s.Holidays > 0 && s.Over })
	d.tap(ebiten.KeyL)
	if s := d.deskSays(); s.Added != over.Added {
		t.Error("lines are added though nothing sails any more")
	}
	d.tap(ebiten.KeyF8)
	d.desks("the reports to be read", func(s atDesk) bool { return s.Drawn })
	d.tap(ebiten.KeyU)
	d.desks("the reports to be drawn up", func(s atDesk) bool { return s.DrawnUp && s.Drawn })
	d.picture("reports")
	d.tap(ebiten.KeyS)
	d.until("the reports are saved", 60000, func(s *shown) bool { return contains(s.Notice, "saved") })
	d.tap(ebiten.KeyF9, ebiten.KeyF9)
	points := d.until("the debrief comes", 3000, func(s *shown) bool { return s.Screen == "debrief" }).watch.Points
	if code := d.close(); code != 0 || points == nil {
		t.Fatalf("exit status %d, points %v; %s", code, points, &d.stderr)
	}
	sameWithoutAWindow(t, h, *points)
}

// atTheRecord mends the bottom by mouse and by keys, takes a piece back, and marks the container.
func atTheRecord(d *desk) {
	t := d.t
	t.Helper()
	d.tap(ebiten.KeyF3)
	rows := d.desks("the record", func(s atDesk) bool { return s.Rows > 0 })
	if rows.Rows < 400 {
		t.Errorf("the record has %d pings", rows.Rows)
	}
	m := d.picture("record")
	r := area(d.shown.Panes["record"])
	// The track is where the picture has its ink: left of the middle, in the middle of its height.
	at, ok := inked(m, image.Rect(r.Min.X+r.Dx()/4, r.Min.Y+r.Dy()/2, middle(r).X, r.Min.Y+r.Dy()/2+40))
	if !ok {
		t.Fatal("no bottom track is drawn")
	}
	d.drag(at, at.Add(image.Pt(-6, 60)))
	if got := d.deskSays().Pieces; got != 1 {
		t.Fatalf("dragged, %d pieces are laid, want 1; notice %q", got, d.shown.Notice)
	}
	d.tap(ebiten.KeyK, ebiten.KeyEnter)
	for range 20 {
		d.tap(ebiten.KeyDown)
	}
	d.tap(ebiten.KeyRight, ebiten.KeyEnter)
	if got := d.deskSays().Pieces; got != 2 {
		t.Errorf("mended by keys, %d pieces are laid, want 2; notice %q", got, d.shown.Notice)
	}
	d.tap(ebiten.KeyZ)
	if got := d.deskSays().Pieces; got != 1 {
		t.Errorf("taken back, %d pieces are laid, want 1", got)
	}
	d.tap(ebiten.KeyEscape, ebiten.KeyHome)
	d.tap(ebiten.KeyEnd)
	e, ok := strongest(d.picture("record again"), image.Rect(middle(r).X+r.Dx()/10, r.Min.Y+20, r.Max.X-4, r.Max.Y))
	if !ok {
		t.Fatal("no strong echo with a shadow on the record")
	}
	d.tap(ebiten.KeyM)
	d.click(image.Pt((e.left.X+e.right.X)/2, (e.left.Y+e.right.Y)/2))
	d.desks("a contact", func(s atDesk) bool { return s.Contacts == 1 })
	d.tap(ebiten.KeyDigit3)
	d.drag(e.right, e.shadow)
	d.tap(ebiten.KeyEscape)
}

// inked finds the ink of what is ruled on the record.
func inked(m *image.RGBA, r image.Rectangle) (image.Point, bool) {
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			c := m.RGBAAt(x, y)
			if c.R < 0x70 && c.G > 0xa0 && c.B > 0xa0 && int(m.RGBAAt(x, y+4).G) > int(m.RGBAAt(x, y+4).R)+0x40 { // and is no dot of the scale
				return image.Pt(x, y), true
			}
		}
	}
	return image.Point{}, false
}

// atTheMosaic types a setting, has the mosaic made, calls it off once, and lets it stand.
func atTheMosaic(d *desk) {
	t := d.t
	t.Helper()
	d.tap(ebiten.KeyF4)
	d.desks("the mosaic as it stands", func(s atDesk) bool { return s.Painted && !s.Making })
	d.tap(ebiten.KeyE)
	d.write("0.9")
	d.tap(ebiten.KeyEnter)
	d.look()
	d.tap(ebiten.KeyR)
	d.tap(ebiten.KeyEscape)
	if s := d.deskSays(); s.Making || s.Worked {
		t.Errorf("called off it goes on: %+v", s)
	}
	d.tap(ebiten.KeyR)
	d.desks("the mosaic as it would be", func(s atDesk) bool { return s.Ready && !s.Worked })
	m := d.picture("before and after")
	for _, pane := range []string{"before", "after"} {
		if _, deviation := spread(m, area(d.shown.Panes[pane])); deviation < 4 {
			t.Errorf("the mosaic %s is blank: its grey deviates by %.1f", pane, deviation)
		}
	}
	was := d.deskSays().PerM
	d.tap(ebiten.KeyEqual)
	if now := d.deskSays().PerM; math.Abs(now/was-1.2) > 0.01 {
		t.Errorf("zoomed from %g to %g pixels a metre", was, now)
	}
	d.tap(ebiten.KeyL)
	d.desks("the survey stands so", func(s atDesk) bool { return s.Worked })
}

// atTheContacts classes the contact and says what comes of it, by keys.
func atTheContacts(d *desk) {
	t := d.t
	t.Helper()
	d.tap(ebiten.KeyF5)
	d.desks("the chip", func(s atDesk) bool { return s.Chip })
	d.tap(ebiten.KeyDown, ebiten.KeyEnter, ebiten.KeyDown, ebiten.KeyEnter)
	d.look()
	d.tap(ebiten.KeyDown, ebiten.KeyDown, ebiten.KeyDown, ebiten.KeyEnter, ebiten.KeyDown, ebiten.KeyEnter)
	d.desks("it is decided on", func(s atDesk) bool { return s.Undecided == 0 })
	d.picture("contacts")
	d.tap(ebiten.KeyF6)
	d.tap(ebiten.KeyDown, ebiten.KeyDown, ebiten.KeyEnter)
	if s := d.deskSays(); s.Layback || !contains(d.shown.Notice, "two passes") {
		t.Errorf("one pass gives a layback (%v), notice %q", s.Layback, d.shown.Notice)
	}
	d.picture("placing")
}

// sameWithoutAWindow flies the log again and holds what it gives against what the window had.
func sameWithoutAWindow(t *testing.T, h home, points float64) {
	t.Helper()
	l, s := again(t, filepath.Join(h.out(), "first-line-3.jsonl"))
	var sink product.Memory
	report, err := (&flight.Flight{Session: s, Sink: &sink, Log: l}).Fly(context.Background())
	if err != nil { // as for a survey that is another than the log says
		t.Fatal(err)
	}
	if report.Score.Points != points {
		t.Errorf("the replay scores %v, the window said %v", report.Score.Points, points)
	}
	for _, name := range []string{"line-log.csv", "contact-report.csv", "survey-report.html"} {
		saved, err := os.ReadFile(filepath.Join(h.out(), "first-line-3-"+name))
		if err != nil {
			t.Error(err)
			continue
		}
		if again := sink.Content(name); !bytes.Equal(saved, again) {
			t.Errorf("%s: the window saved %d bytes, flown again it has %d, and they differ", name, len(saved), len(again))
		}
	}
	for _, name := range []string{"mosaic-remade.tif", "bottom-track.csv", "contact-report.html", "chip-001.png"} {
		if len(sink.Content(name)) == 0 {
			t.Errorf("flown again it gives no %s", name)
		}
	}
	count := map[order.Do]int{}
	for _, c := range l.Commands {
		count[c.Do]++
	}
	for do, want := range map[order.Do]int{
		order.BottomAt: 2, order.UndoBottom: 1, order.Mark: 1, order.Measure: 1, order.ReworkFactor: 1, order.Rework: 1,
		order.ClassContact: 1, order.ContactAction: 1, order.CalibrateLayback: 0, order.DrawUp: 1, order.Finish: 1,
	} {
		if count[do] != want {
			t.Errorf("%s is %d times in the log, want %d", do, count[do], want)
		}
	}
	if count[order.AddLine] == 0 {
		t.Error("no line was added")
	}
}
