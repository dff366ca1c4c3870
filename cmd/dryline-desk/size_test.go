//go:build !js

package main

import (
	"bytes"
	"image"
	"os"
	"testing"

	"github.com/hajimehoshi/ebiten/v2"
)

// Clicked again and again where it is, the button that makes everything larger
// stays under the pointer; the size comes when the pointer has left it, and smaller
// again likewise.
func TestTheSizeDoesNotMoveFromUnderThePointer(t *testing.T) {
	h := newHome(t)
	d := openDesk(t, h, 1920, 1080, "first-line")
	d.until("the watch begins", 240, func(s *shown) bool { return s.Screen == "watch" && s.watch.Tick > 0 })
	d.press("Settings")
	// The second of each is for the size, the first for the contrast.
	button := func(label string) image.Rectangle {
		t.Helper()
		d.ticks(3)
		d.frame()
		d.frame()
		side, of := area(d.look().Panes["side"]), []image.Rectangle{}
		for _, b := range d.shown.Buttons {
			if at := area(b.At); b.Label == label && at.In(side) {
				of = append(of, at)
			}
		}
		if len(of) != 2 {
			t.Fatalf("%d buttons %q on the page, want 2", len(of), label)
		}
		return of[1]
	}
	d.tap(ebiten.KeySpace)
	for _, way := range []struct {
		label  string
		clicks int
		scale  float64
	}{{"+", 3, 1.3}, {"−", 2, 1.1}} {
		was, at := d.look().Scale, button(way.label)
		for n := range way.clicks {
			d.click(middle(at))
			if now := button(way.label); now != at || d.shown.Scale != was {
				t.Fatalf("%s clicked %d times: the button is at %v and the size %g, want %v and %g", way.label, n+1, now, d.shown.Scale, at, was)
			}
		}
		d.picture("asked for")
		d.guest.MoveCursor(900, 300)
		if s := d.until("the size asked for", 240, func(s *shown) bool { return s.Scale != was }); s.Scale < way.scale-0.001 || s.Scale > way.scale+0.001 {
			t.Errorf("%s clicked %d times from %g: %g, want %g", way.label, way.clicks, was, s.Scale, way.scale)
		}
	}
	d.close()
	if kept, err := os.ReadFile(h.settings()); err != nil || !bytes.Contains(kept, []byte(`"scale": 1.1`)) {
		t.Errorf("kept: %s (%v), want a scale of 1.1", kept, err)
	}
}
