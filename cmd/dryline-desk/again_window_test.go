//go:build !js

package main

import (
	"bytes"
	"image"
	"os"
	"slices"
	"testing"

	"dryline/sim/order"

	"github.com/hajimehoshi/ebiten/v2"
)

// From the debrief to a moment of the watch, there with hands off, and from there on
// for practice, by keys and mouse; the log that is kept names the session it was tried
// again from, and its debrief says that it does not count.
func TestFromTheDebriefBackToAMoment(t *testing.T) {
	h := newHome(t)
	d := openDesk(t, h, 1280, 720, "first-line")
	d.until("the watch begins", 240, func(s *shown) bool { return s.Screen == "watch" && s.watch.Tick > 0 })
	d.tap(ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeyEqual)
	d.until("the fish is at the line", 3000, func(s *shown) bool { return s.watch.Tick > 500 })
	d.tap(ebiten.KeyL)
	d.tap(ebiten.KeyPageDown)
	// Time may have slackened to 1x at the start of the line: 50 s of the watch are then 50 s of the window.
	d.until("a while has gone by", 9000, func(s *shown) bool { return s.watch.Tick > 1000 })
	d.tap(ebiten.KeyL)
	d.toDebrief(3000)
	d.frame()
	d.picture("debrief")

	cause := area(d.look().Panes["cause"])
	if cause.Empty() {
		t.Fatal("no cause leads to a moment")
	}
	before := d.shown.watch.Moment
	bar := area(d.shown.Panes["bar"])
	d.click(image.Pt(bar.Min.X+bar.Dx()/5, bar.Min.Y+bar.Dy()/2))
	if got := d.look().watch.Moment; got < 15 || got > 25 || got == before {
		t.Errorf("a click a fifth along a bar of some 100 s chooses %g s", got)
	}
	fifth := d.shown.watch.Moment
	d.tap(ebiten.KeyRight)
	right := d.look().watch.Moment
	d.tap(ebiten.KeyLeft)
	if left := d.look().watch.Moment; right <= fifth || left >= right {
		t.Errorf("from %g s right goes to %g and left from there to %g", fifth, right, left)
	}
	d.click(middle(cause))
	if got := d.look().watch.Moment; got < 45 {
		t.Errorf("the cause that cost most leads to %g s, before anything was logged", got)
	}
	d.click(image.Pt(bar.Min.X+bar.Dx()*7/10, bar.Min.Y+bar.Dy()/2))
	at := d.look().watch.Moment
	d.guest.MoveCursor(float64(bar.Min.X+bar.Dx()/2), float64(bar.Max.Y+30))
	d.picture("debrief moment")

	d.press("Look at it again")
	s := d.until("it is looked at again", 6000, func(s *shown) bool { return s.Screen == "again" && s.watch.Restored == 1 })
	if s.watch.Tick != int64(at*10+0.5) || s.watch.Logging != "A" || !s.watch.Paused || s.watch.Pings < 300 || s.watch.CableOrdered != 17 {
		t.Errorf("looked at again at %g s it is at %s", at, s.State)
	}
	d.picture("again")
	d.tap(ebiten.KeyPageDown, ebiten.KeyL)
	d.tap(ebiten.KeyPeriod)
	s = d.until("a second has gone by", 600, func(s *shown) bool { return s.watch.Restored == 1 && s.watch.Tick > int64(at*10+0.5) })
	if want := int64(at*10+0.5) + 10; s.watch.Tick != want || s.watch.CableOrdered != 17 || s.watch.Logging != "A" {
		t.Errorf("a second on, with orders that nobody may give, it is at %s, want tick %d and all as it was", s.State, want)
	}
	d.tap(ebiten.KeyEqual, ebiten.KeyEqual, ebiten.KeySpace)
	d.until("it plays", 600, func(s *shown) bool { return s.watch.Tick > int64(at*10)+50 && !s.watch.Paused })
	d.tap(ebiten.KeySpace)
	played := d.look().watch.Tick
	if d.look().watch.Tick != played {
		t.Error("it does not stand still")
	}
	d.press("10 s back")
	d.until("it is ten seconds before", 6000, func(s *shown) bool {
		return s.Screen == "again" && s.watch.Restored == 1 && s.watch.Tick == played-100
	})
	d.tap(ebiten.KeyEscape)
	if s := d.look(); s.Screen != "debrief" || s.watch.Tick != played-100 {
		t.Fatalf("Esc leads to %s at tick %d, want the debrief at %d", s.Screen, s.watch.Tick, played-100)
	}
	d.tap(ebiten.KeyT)
	d.picture("debrief by night")
	d.tap(ebiten.KeyEnter)
	d.until("it is looked at again", 6000, func(s *shown) bool { return s.Screen == "again" && s.watch.Restored == 1 })
	d.resize(1920, 1080)
	d.ticks(30)
	d.picture("again by night")
	tryAgain(d, h, played-100)
	if code := d.close(); code != 0 {
		t.Errorf("exit status %d, want 0; %s", code, &d.stderr)
	}
}

// tryAgain tries again from the moment that is looked at, which is of a tick, to the
// debrief.
func tryAgain(d *desk, h home, tick int64) {
	t := d.t
	t.Helper()
	first := h.logs(t, "first-line-*.jsonl")
	d.press("Try again from here")
	s := d.until("the practice begins", 6000, func(s *shown) bool { return s.Screen == "watch" && s.watch.Restored == 1 })
	if s.watch.Tick != tick || s.watch.Logging != "A" || !s.watch.Paused || s.watch.Practice == "" {
		t.Errorf("practice begins as %s, want tick %d with the log on", s.State, tick)
	}
	d.tap(ebiten.KeyPageUp)
	if s := d.look(); s.watch.CableOrdered != 16 {
		t.Errorf("an order in practice: %g m ordered, want 16; %s", s.watch.CableOrdered, s.Notice)
	}
	d.picture("practice")
	d.tap(ebiten.KeySpace)
	d.until("practice goes on", 600, func(s *shown) bool { return s.watch.Tick > tick+20 })
	s = d.toDebrief(3000)
	if s.watch.Passed || !slices.Contains(s.watch.Gates, "practice") {
		t.Errorf("its debrief: %s, want the gate of practice", s.State)
	}
	d.picture("debrief of practice")
	all := h.logs(t, "first-line-*.jsonl")
	if len(first) != 1 || len(all) != 2 {
		t.Fatalf("logs kept: %v and then %v, want one and two", first, all)
	}
	read := func(name string) *order.Log {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		l, err := order.ReadLog(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	parent, practice := read(first[0]), read(all[0])
	if all[0] == first[0] {
		practice = read(all[1])
	}
	p := practice.Parent
	if p == nil || p.Tick != tick || p.Digest != parent.Digest || !p.Started.Equal(parent.Started) || parent.Parent != nil {
		t.Errorf("the log kept names %+v, want tick %d of %s begun %v", p, tick, parent.Digest, parent.Started)
	}
	for i, o := range practice.Commands {
		if o.Tick < tick && (i >= len(parent.Commands) || o != parent.Commands[i]) {
			t.Errorf("order %d is %+v, not the parent's", i, o)
		}
	}
}
