package main

import (
	"bytes"
	"encoding/json"
	"image"
	"slices"
	"strings"
	"testing"
	"time"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/order"
)

// A whole watch in the browser: chosen, begun, left half way and resumed from
// its download, ended, and its log flown again here to the same score.
func TestServeWatch(t *testing.T) {
	if testing.Short() {
		t.Skip("a whole watch in a browser")
	}
	path := chromium(t)
	at := builtSite(t)
	began := time.Now()
	w := newWindow(t, path)
	w.open(at)
	w.until("exercises to choose from", func(s told) bool { return s.Screen == "choose" })
	t.Logf("loaded in %.1f s", time.Since(began).Seconds())
	w.frames()
	if n := w.colours("choose", image.Rect(0, 0, 1280, 720)); n < 100 {
		t.Errorf("got %d colours in the window, want a picture", n)
	}

	// The keys choose.
	chosen := func(s told) (name string) { json.Unmarshal(s.State, &name); return name }
	for tries := 0; ; tries++ {
		before := chosen(w.tell())
		w.key("ArrowDown", "ArrowDown", 0)
		now := chosen(w.until("another exercise", func(s told) bool { return chosen(s) != before }))
		if now == "first-line" {
			break
		}
		if tries > 20 {
			t.Fatal("first-line is not among the exercises")
		}
	}

	// A file that is no session is refused in words.
	w.upload("letter.jsonl", []byte("Dear harbour master,\n"))
	w.press("Resume a session")
	w.until("the sessions kept", func(s told) bool { return s.Screen == "sessions" })
	w.press("From a file")
	w.until("a refusal", func(s told) bool { return strings.Contains(s.Notice, "letter.jsonl cannot be resumed") })
	w.key("Escape", "Escape", 0)
	w.until("the exercises again", func(s told) bool { return s.Screen == "choose" && chosen(s) == "first-line" })

	// By way of the mobilisation sheet, which says what the desk works with.
	w.key("KeyP", "p", 0)
	w.until("the sheet", func(s told) bool { return s.Screen == "prepare" })
	w.press("Begin the watch")
	w.untilWatch("the watch", func(s onWatch) bool { return s.Exercise == "first-line" && s.Tick > 20 })
	t.Logf("%.1f frames a second on watch at the pace of the water", w.pace())

	// The crew obeys the keys.
	// At the start of a line time slackens: on a slow machine that may fall in between.
	for tries := 0; w.tell().watch().Rate < 20; tries++ {
		if tries > 60 {
			t.Fatal("time does not run faster")
		}
		w.key("Equal", "=", 0)
	}
	start := w.tell().watch()
	w.key("PageDown", "PageDown", 0)
	w.key("PageDown", "PageDown", shiftKey)
	w.untilWatch("cable paid out", func(s onWatch) bool { return s.CableOrdered > start.CableOrdered })
	w.key("PageUp", "PageUp", 0)
	w.untilWatch("cable hauled in", func(s onWatch) bool { return s.CableOrdered >= start.CableOrdered })
	w.key("KeyF", "f", 0)
	w.untilWatch("a shorter range scale", func(s onWatch) bool { return s.RangeScale < start.RangeScale })
	w.key("KeyG", "g", 0)
	w.untilWatch("the range scale of before", func(s onWatch) bool { return s.RangeScale == start.RangeScale })
	w.key("Enter", "Enter", 0)
	w.untilWatch("steering to the line", func(s onWatch) bool { return s.Steering.Line == "A" })
	w.key("KeyL", "l", 0)
	logged := w.untilWatch("logging", func(s onWatch) bool { return s.Logging == "A" })

	// Keys that would move the page or its focus.
	w.key("Tab", "Tab", 0)
	w.key("F1", "F1", 0)
	w.key("F1", "F1", 0)
	if !eval[bool](w, `document.activeElement.tagName === "CANVAS" && scrollX === 0 && scrollY === 0`) {
		t.Error("the page has moved, or the window lost the keys")
	}
	// What is chosen for the window stays in the browser.
	w.key("KeyT", "t", 0)
	if kept := eval[string](w, `localStorage.getItem("dryline.window")`); !strings.Contains(kept, `"night"`) {
		t.Errorf("got settings %q, want the night theme", kept)
	}
	w.key("KeyT", "t", 0)

	w.press("Settings")
	buttons := w.tell().Buttons
	for i, b := range slices.Backward(buttons) {
		if b.Label == "Switch" { // the last is for sounds
			w.click(float64(buttons[i].At[0]+b.At[2])/2, float64(b.At[1]+b.At[3])/2)
			break
		}
	}
	if kept := eval[string](w, `localStorage.getItem("dryline.window")`); !strings.Contains(kept, `"sounds": true`) {
		t.Errorf("got settings %q, want sounds", kept)
	}

	reached := w.untilWatch("pings", func(s onWatch) bool { return s.Pings > logged.Pings+120 && s.Tick > start.Tick+150 })
	t.Logf("time at %.1f of %g times, %d pings", reached.Reached, reached.Rate, reached.Pings)
	fall := rectOf(w.tell().Panes["fall"])
	if n := w.colours("watch", fall); n < 32 {
		t.Errorf("got %d colours in the waterfall, want a picture", n)
	}
	w.key("KeyM", "m", 0)
	w.click(float64(fall.Min.X+fall.Dx()*3/4), float64(fall.Min.Y+30))
	w.untilWatch("a contact", func(s onWatch) bool { return s.Contacts == 1 })

	// Left half way, and resumed where it was.
	before := w.tell().watch()
	w.key("KeyS", "s", ctrlKey)
	name, half := w.download()
	if name != "first-line-3-watch.jsonl" {
		t.Errorf("got a download %q", name)
	}
	w.until("exercises to choose from again", func(s told) bool { return s.Screen == "choose" })
	// The browser has it as well, should the download be lost or the page die.
	w.press("Resume a session")
	w.until("the sessions kept", func(s told) bool { return s.Screen == "sessions" })
	if kept, want := w.kept("first-line-3-watch.jsonl"), logIn(t, half); !slices.Equal(kept.Commands, want.Commands) || kept.Ticks != want.Ticks {
		t.Errorf("the browser keeps %d orders up to tick %d, want the %d up to %d of the download", len(kept.Commands), kept.Ticks, len(want.Commands), want.Ticks)
	}
	w.upload(name, half)
	w.press("From a file")
	after := w.untilWatch("the session back where it was", func(s onWatch) bool { return s.Restored == 1 && s.Tick >= before.Tick })
	if after.Contacts != 1 || after.Logging != "A" || after.CableOrdered != before.CableOrdered || after.RangeScale != before.RangeScale {
		t.Errorf("got %+v back, want %+v", after, before)
	}

	w.key("Space", " ", 0) // time stood still
	w.key("KeyL", "l", 0)
	w.untilWatch("the log off", func(s onWatch) bool { return s.Logging == "" && slices.Contains(s.Lines, "A") })

	// Sounds: at a range scale this short the fish is high, of which the coach
	// cautions. The browser lets them sound after a key, and finds no fault.
	for range 3 {
		w.key("KeyF", "f", 0)
	}
	w.key("KeyL", "l", 0)
	w.untilWatch("logging again", func(s onWatch) bool { return s.Logging == "A" && s.RangeScale == 30 })
	for begun := time.Now(); !eval[bool](w, `contexts.length === 1 && contexts[0].state === "running"`); time.Sleep(time.Second / 10) {
		if time.Since(begun) > enough {
			t.Fatalf("no caution sounds within %v", enough)
		}
		w.key("KeyK", "k", 0)
	}
	w.key("F9", "F9", 0)
	w.key("F9", "F9", 0)
	w.until("the desk", func(s told) bool { return s.Screen == "desk" })
	// The record is kept in the page's memory, and worked on while the page goes on being drawn.
	atDesk := func(what string, so func(rows int, painted, ready bool) bool) {
		w.until(what, func(s told) bool {
			var d struct {
				Rows           int
				Painted, Ready bool
			}
			return s.Screen == "desk" && json.Unmarshal(s.State, &d) == nil && so(d.Rows, d.Painted, d.Ready)
		})
	}
	w.key("F3", "F3", 0)
	atDesk("the record", func(rows int, _, _ bool) bool { return rows > 0 })
	w.key("F4", "F4", 0)
	atDesk("the mosaic as it stands", func(_ int, painted, _ bool) bool { return painted })
	w.key("KeyR", "r", 0)
	atDesk("the mosaic as it would be", func(_ int, _, ready bool) bool { return ready })
	w.colours("the desk on a page", image.Rectangle{})
	w.key("F9", "F9", 0)
	w.key("F9", "F9", 0)
	s := w.until("the debrief", func(s told) bool { return s.Screen == "debrief" })
	w.colours("debrief", image.Rectangle{})
	var shown struct {
		Points  float64
		Partial bool
	}
	if err := json.Unmarshal(s.State, &shown); err != nil {
		t.Fatal(err)
	}
	w.press("Save the session")
	name, text := w.download()
	if name != "first-line-3.jsonl" {
		t.Errorf("got a download %q", name)
	}
	w.clean(at)
	t.Logf("the browser was at it for %.0f s", time.Since(began).Seconds())

	report := flownAgain(t, text)
	if report.Score.Points != shown.Points || report.Partial != shown.Partial {
		t.Errorf("flown again: got %v points, partial %t; the browser showed %v, %t",
			report.Score.Points, report.Partial, shown.Points, shown.Partial)
	}
	if len(report.Score.Items) == 0 || shown.Points <= 0 {
		t.Errorf("got %v points from %d items, want some", shown.Points, len(report.Score.Items))
	}
}

// logIn reads a session log.
func logIn(t *testing.T, text []byte) *order.Log {
	t.Helper()
	l, err := order.ReadLog(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// flownAgain replays a session log and judges it.
func flownAgain(t *testing.T, text []byte) debrief.Report {
	t.Helper()
	l := logIn(t, text)
	ex, err := scenarios.Parse(l.Exercise+".yaml", l.Source)
	if err != nil {
		t.Fatal(err)
	}
	s, err := sim.NewSeeded(ex, l.Seeds)
	if err != nil {
		t.Fatal(err)
	}
	witness := sim.Attend(s)
	if err := s.Replay(l, nil); err != nil {
		t.Fatal(err)
	}
	return debrief.Make(s, witness)
}
