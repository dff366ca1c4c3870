//go:build !js

package main

import (
	"testing"

	"dryline/sim/order"

	"github.com/hajimehoshi/ebiten/v2"
)

// The key that ends the typing of a name is no order to the watch as well.
func TestEnterInAFieldStaysThere(t *testing.T) {
	d := openDesk(t, newHome(t), 1280, 720, "first-line")
	s := d.until("a few pings", 1200, func(s *shown) bool { return s.watch.Pings > 60 })
	d.tap(ebiten.KeyHome)
	d.until("the heading is held", 240, func(s *shown) bool { return s.watch.Steering.Do == string(order.SteerHeading) })
	d.tap(ebiten.KeyM)
	d.click(middle(area(s.Panes["chart"])))
	d.until("the contact is on the list", 240, func(s *shown) bool { return s.watch.Chosen == 1 })
	d.press("C1")
	d.write("Crate") // in place of what was there
	d.tap(ebiten.KeyEnter)
	d.button("Crate")
	if got := d.look().watch.Steering; got.Do != string(order.SteerHeading) {
		t.Errorf("Enter in the name of a contact: steering by %q, want the heading held as before", got.Do)
	}
}

// Keys pressed faster than the crew takes orders all count.
func TestQuickKeysAllCount(t *testing.T) {
	d := openDesk(t, newHome(t), 1024, 600, "first-line")
	was := d.until("the watch begins", 240, func(s *shown) bool { return s.Screen == "watch" && s.watch.Tick > 0 }).watch.CableOrdered
	d.tap(ebiten.KeyPageDown, ebiten.KeyPageDown, ebiten.KeyPageDown)
	if got := d.look().watch.CableOrdered; got != was+3 {
		t.Errorf("three quick metres paid out from %g m: %g m ordered, want %g", was, got, was+3)
	}
}

// Each page of the side panel comes when its name is clicked.
func TestPagesComeWhenClicked(t *testing.T) {
	d := openDesk(t, newHome(t), 1280, 720, "first-line")
	d.until("the watch begins", 240, func(s *shown) bool { return s.Screen == "watch" && s.watch.Tick > 0 })
	for _, page := range []struct{ tab, has string }{{"Desk", "Change"}, {"Contacts", "Mark M"}, {"Sonar", "As recorded"}, {"Settings", "Other"}} {
		d.press(page.tab)
		d.button(page.has)
	}
	d.press("Watch")
	for _, b := range d.look().Buttons {
		if b.Label == "Other" {
			t.Error("the page of the window is still there")
		}
	}
}
