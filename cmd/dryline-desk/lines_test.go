//go:build !js

package main

import (
	"bytes"
	"context"
	"encoding/json"
	"image"
	"math"
	"path/filepath"
	"slices"
	"testing"

	"dryline/sim/flight"
	"dryline/sim/order"
	"dryline/sim/product"

	"github.com/hajimehoshi/ebiten/v2"
)

// shownLines holds what the page of the lines shows.
type shownLines struct {
	Figures map[string]string `json:"figures"`
	Way     string            `json:"way"`
	Drawn   bool              `json:"drawn"`
	Corners int               `json:"corners"`
	At      [][2]int          `json:"corners_px"`
	Sail    bool              `json:"sail"`
	Laying  bool              `json:"laying"`
	Refused string            `json:"refused"`
	Lines   []string          `json:"lines"`
	Once    float64           `json:"once"`
}

func (d *desk) lines() (s shownLines) {
	d.t.Helper()
	if err := json.Unmarshal(d.look().State, &s); err != nil {
		d.t.Fatal(err)
	}
	return s
}

// laid waits until lines are laid, or nothing can be.
func (d *desk) laid() (s shownLines) {
	d.t.Helper()
	for range 3000 {
		d.frame()
		if s = d.lines(); !s.Laying {
			return s
		}
	}
	d.t.Fatal("the lines are never laid")
	return s
}

// Lines that are laid by keys alone, over an area drawn by corners, are what the watch sails: they are in the log
// before the first tick, she turns for the first of them, and the session flown again without a window gives the same.
func TestLinesOfOnesOwnAreSailed(t *testing.T) {
	h := newHome(t)
	d := openDesk(t, h, 1280, 720)
	d.press("The first line")
	d.tap(ebiten.KeyP)
	d.until("the sheet comes", 240, func(s *shown) bool { return s.Screen == "prepare" })
	d.tap(ebiten.KeyL)
	d.until("the page of the lines comes", 240, func(s *shown) bool { return s.Screen == "lines" })
	given := d.laid()
	if len(given.Lines) < 2 || given.Once < 0.5 || given.Sail {
		t.Fatalf("over the area of the exercise %+v", given)
	}
	d.picture("lines")
	d.tap(ebiten.KeyA)
	if s := d.laid(); !s.Drawn || s.Refused == "" || len(s.Lines) > 0 {
		t.Errorf("with no corner drawn %+v", s)
	}
	// The cross is in the middle of the chart: a rectangle of 100 by 150 m about it.
	taps := func(k ebiten.Key, n int) {
		for range n {
			d.tap(k)
		}
	}
	for _, side := range []struct {
		key ebiten.Key
		n   int
	}{{ebiten.KeyLeft, 5}, {ebiten.KeyDown, 8}, {ebiten.KeySpace, 1}, {ebiten.KeyRight, 10}, {ebiten.KeySpace, 1}, {ebiten.KeyUp, 15}, {ebiten.KeySpace, 1}, {ebiten.KeyLeft, 10}, {ebiten.KeySpace, 1}} {
		taps(side.key, side.n)
	}
	if s := d.laid(); s.Corners != 4 || len(s.Lines) == 0 {
		t.Fatalf("with four corners %+v", s)
	}
	d.picture("drawn")
	// By the pointer: the last corner taken back, set again by a click a little farther out, and drawn in; the chart stays where it is.
	was := d.lines()
	d.press("Corner back")
	if s := d.laid(); s.Corners != 3 {
		t.Errorf("taken back: %d corners", s.Corners)
	}
	last := image.Pt(was.At[3][0], was.At[3][1])
	d.click(last.Add(image.Pt(-12, -20)))
	if s := d.laid(); s.Corners != 4 || s.At[3] != [2]int{last.X - 12, last.Y - 20} || s.At[0] != was.At[0] {
		t.Errorf("clicked at %v: %+v, before %+v", last.Add(image.Pt(-12, -20)), s.At, was.At)
	}
	d.drag(last.Add(image.Pt(-12, -20)), last)
	if s := d.laid(); s.Corners != 4 || math.Hypot(float64(s.At[3][0]-last.X), float64(s.At[3][1]-last.Y)) > 2 || s.At[0] != was.At[0] {
		t.Errorf("drawn to %v: %+v", last, s.At)
	}
	d.drag(last.Add(image.Pt(150, 60)), last.Add(image.Pt(190, 90)))
	if s := d.laid(); s.Corners != 4 || s.At[0] != [2]int{was.At[0][0] + 40, was.At[0][1] + 30} {
		t.Errorf("the chart drawn by 40 and 30: %+v, before %+v", s.At, was.At)
	}
	d.tap(ebiten.KeyW, ebiten.KeyTab, ebiten.KeyTab, ebiten.KeyTab, ebiten.KeyTab) // to the range scale
	d.write("50")
	d.tap(ebiten.KeyTab)
	d.write("6")
	d.tap(ebiten.KeyEnter)
	own := d.laid()
	if !own.Sail || own.Figures["Range scale"] != "50" || own.Figures["Height of the fish"] != "6" || len(own.Lines) < 2 {
		t.Fatalf("typed 50 and 6: %+v", own)
	}
	d.picture("own")
	d.tap(ebiten.KeyEnter)
	d.until("the watch begins", 240, func(s *shown) bool { return s.Screen == "watch" && s.watch.Tick > 0 })
	d.picture("watch")
	d.tap(ebiten.KeyL)
	d.until("some of a line is logged", 3000, func(s *shown) bool { return s.watch.Tick > 150 })
	d.tap(ebiten.KeyF9, ebiten.KeyF9)
	d.until("the desk comes", 3000, func(s *shown) bool { return s.Screen == "desk" })
	d.tap(ebiten.KeyF9, ebiten.KeyF9)
	d.until("the debrief comes", 3000, func(s *shown) bool { return s.Screen == "debrief" })
	if code := d.close(); code != 0 {
		t.Errorf("exit status %d; %s", code, &d.stderr)
	}
	file := filepath.Join(h.out(), "first-line-3.jsonl")
	log, session := again(t, file)
	var added []string
	at := map[order.Do]int{}
	for i, c := range log.Commands {
		if c.Do == order.AddLine {
			added = append(added, c.Line)
		}
		if _, had := at[c.Do]; !had {
			at[c.Do] = i
		}
		if (c.Do == order.AddLine || c.Do == order.OwnLines || c.Do == order.Turn) && c.Tick != 0 {
			t.Errorf("%+v comes after the first tick", c)
		}
	}
	if !slices.Equal(added, own.Lines) || at[order.OwnLines] < at[order.AddLine] || at[order.Turn] < at[order.OwnLines] || log.Commands[at[order.Turn]].Line != own.Lines[0] {
		t.Fatalf("the log has %+v; want the lines %v, then that they are run, then to turn for the first", log.Commands, own.Lines)
	}
	if log.Commands[at[order.LogOn]].Line != own.Lines[0] {
		t.Errorf("logged %+v, want the first of %v", log.Commands[at[order.LogOn]], own.Lines)
	}
	var one, two product.Memory
	if _, err := (&flight.Flight{Session: session, Log: log, Sink: &one}).Fly(context.Background()); err != nil {
		t.Errorf("flown again by its log: %v", err) // it holds what came of it to the digest that the window wrote
	}
	_, other := again(t, file)
	other.Attempt, other.Workers = log.Attempt, 1
	if _, err := (&flight.Flight{Session: other, Orders: log.Commands, Sink: &two}).Fly(context.Background()); err != nil {
		t.Errorf("flown by its orders: %v", err)
	}
	if a, b := one.Content("contents.json"), two.Content("contents.json"); len(a) == 0 || !bytes.Equal(a, b) {
		t.Errorf("contents.json of %d and %d bytes differ", len(a), len(b))
	}
}
