//go:build !js

package main

import (
	"image"

	"github.com/hajimehoshi/ebiten/v2"
)

// tap presses keys one after the other.
func (d *desk) tap(keys ...ebiten.Key) {
	d.t.Helper()
	for _, k := range keys {
		d.guest.PressKey(k)
		d.ticks(2)
		d.guest.ReleaseKey(k)
		d.ticks(2)
	}
}

// hold holds a key down for some ticks.
func (d *desk) hold(k ebiten.Key, ticks int) {
	d.t.Helper()
	d.guest.PressKey(k)
	d.ticks(ticks)
}

// letGo lets go of a key.
func (d *desk) letGo(k ebiten.Key) {
	d.t.Helper()
	d.guest.ReleaseKey(k)
	d.ticks(2)
}

// write types into the field that has the keys.
func (d *desk) write(s string) {
	d.t.Helper()
	for _, r := range s {
		d.guest.TypeRune(r)
		d.ticks(2)
	}
}

// click clicks at a pixel.
func (d *desk) click(at image.Point) { d.t.Helper(); d.drag(at, at) }

// drag presses the button at one pixel and lets it go at another. A frame is
// drawn after each step, as in any window: the controls learn in it what lies
// under the pointer.
func (d *desk) drag(from, to image.Point) {
	d.t.Helper()
	settle := func() {
		d.frame()
		d.frame()
	}
	move := func(p image.Point) {
		d.guest.MoveCursor(float64(p.X)+0.5, float64(p.Y)+0.5)
		settle()
	}
	move(from)
	d.guest.PressMouseButton(ebiten.MouseButtonLeft)
	settle()
	for step := 1; step <= 4 && from != to; step++ {
		move(from.Add(to.Sub(from).Mul(step).Div(4)))
	}
	d.guest.ReleaseMouseButton(ebiten.MouseButtonLeft)
	settle()
}

// button is the middle of the control with a lettering.
func (d *desk) button(label string) image.Point {
	d.t.Helper()
	d.ticks(3)
	d.frame() // controls get their places when they are first drawn
	d.frame()
	for _, b := range d.look().Buttons {
		if b.Label == label {
			return middle(area(b.At))
		}
	}
	d.t.Fatalf("there is no control %q; there are %v", label, d.shown.Buttons)
	return image.Point{}
}

func middle(r image.Rectangle) image.Point { return r.Min.Add(r.Max).Div(2) }

// press clicks the control with a lettering.
func (d *desk) press(label string) { d.t.Helper(); d.click(d.button(label)) }

// toDebrief ends the watch, and hands in what is on the desk if there is anything.
func (d *desk) toDebrief(most int) *shown {
	d.t.Helper()
	d.tap(ebiten.KeyF9, ebiten.KeyF9)
	s := d.until("the watch is over", most, func(s *shown) bool { return s.Screen == "desk" || s.Screen == "debrief" })
	if s.Screen == "desk" {
		d.tap(ebiten.KeyF9, ebiten.KeyF9)
		s = d.until("the debrief comes", most, func(s *shown) bool { return s.Screen == "debrief" })
	}
	return s
}
