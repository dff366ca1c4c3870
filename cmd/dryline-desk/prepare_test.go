//go:build !js

package main

import (
	"bytes"
	"context"
	"encoding/json"
	"path/filepath"
	"slices"
	"testing"

	"dryline/sim/flight"
	"dryline/sim/order"
	"dryline/sim/product"

	"github.com/hajimehoshi/ebiten/v2"
)

// A sheet that is typed, by keys alone, and the watch that comes of it: what was typed is in the log
// before the first tick, and the session flown again without a window, by its log or by a list of the
// same orders, gives what the window's gave, file for file.
func TestTheSheetIsWhatTheDeskWorksWith(t *testing.T) {
	h := newHome(t)
	d := openDesk(t, h, 1280, 720)
	d.press("A figure that is wrong")
	d.tap(ebiten.KeyP)
	d.until("the sheet comes", 240, func(s *shown) bool { return s.Screen == "prepare" })
	d.tap(ebiten.KeyTab)
	d.write("900")
	d.tap(ebiten.KeyEnter, ebiten.KeyEnter)
	var sheet struct {
		Figures map[string]string `json:"figures"`
		Faults  []string          `json:"faults"`
		Method  string            `json:"method"`
	}
	told := func() {
		t.Helper()
		if err := json.Unmarshal(d.look().State, &sheet); err != nil {
			t.Fatal(err)
		}
	}
	if told(); d.shown.Screen != "prepare" || len(sheet.Faults) != 1 {
		t.Fatalf("with 900 m typed: %s, faults %q; want to stay and one", d.shown.Screen, sheet.Faults)
	}
	d.tap(ebiten.KeyTab)
	d.write("6.3")
	d.tap(ebiten.KeyTab, ebiten.KeyTab, ebiten.KeyUp, ebiten.KeyUp, ebiten.KeyTab, ebiten.KeyTab)
	d.write("1494.5")
	d.tap(ebiten.KeyEnter, ebiten.KeyM)
	told()
	if sheet.Figures["Sound speed"] != "1494.5" || sheet.Figures["Sheave aft of the antenna"] != "6.3" || sheet.Figures["Sheave above the water"] != "2.4" || sheet.Method != "heading" || len(sheet.Faults) > 0 {
		t.Fatalf("typed 6.3, stepped 2.2 up twice, M: %+v", sheet)
	}
	d.picture("sheet")
	d.tap(ebiten.KeyEnter)
	d.until("the watch begins", 240, func(s *shown) bool { return s.Screen == "watch" && s.watch.Tick > 0 })
	d.tap(ebiten.KeyL)
	d.until("some of a line is logged", 3000, func(s *shown) bool { return s.watch.Tick > 150 })
	d.tap(ebiten.KeyF9, ebiten.KeyF9)
	d.until("the desk comes", 3000, func(s *shown) bool { return s.Screen == "desk" })
	d.tap(ebiten.KeyF9, ebiten.KeyF9)
	d.until("the debrief comes", 3000, func(s *shown) bool { return s.Screen == "debrief" })
	if code := d.close(); code != 0 {
		t.Errorf("exit status %d; %s", code, &d.stderr)
	}
	log, session := again(t, filepath.Join(h.out(), "hidden-offset-17.jsonl"))
	want := []order.Command{{Do: order.Lookout}, {Do: order.TowOffset, Value: 6.3}, {Do: order.SheaveHeight, Value: 2.4}, {Do: order.SoundSpeed, Value: 1494.5}, {Do: order.PositionBy, Method: "heading"}}
	if len(log.Commands) < len(want) || !slices.Equal(log.Commands[:len(want)], want) {
		t.Fatalf("the log begins %+v, want %+v", log.Commands, want)
	}
	var one, two product.Memory
	if _, err := (&flight.Flight{Session: session, Log: log, Sink: &one}).Fly(context.Background()); err != nil {
		t.Errorf("flown again by its log: %v", err) // it holds what came of it to the digest that the window wrote
	}
	_, other := again(t, filepath.Join(h.out(), "hidden-offset-17.jsonl"))
	other.Attempt, other.Workers = log.Attempt, 1
	if _, err := (&flight.Flight{Session: other, Orders: log.Commands, Sink: &two}).Fly(context.Background()); err != nil {
		t.Errorf("flown by its orders: %v", err)
	}
	if a, b := one.Content("contents.json"), two.Content("contents.json"); len(a) == 0 || !bytes.Equal(a, b) {
		t.Errorf("contents.json of %d and %d bytes differ", len(a), len(b))
	}
	if set := session.Desk.Settings; set.AntennaToTow != 6.3 || set.SoundSpeed != 1494.5 {
		t.Errorf("the desk works with an offset of %g m and %g m/s", set.AntennaToTow, set.SoundSpeed)
	}
}
