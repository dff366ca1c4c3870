//go:build !js

package main

import (
	"image"
	"strings"
	"testing"

	"dryline/cmd/dryline-desk/app"
	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// The keys alone lead to every card and to every page behind the menu and back; the wheel
// turns the page; the cards have their pictures; and the window is whole at the least size.
func TestKeysLeadThroughTheCards(t *testing.T) {
	for _, size := range []image.Point{{1024, 600}, {1280, 720}} {
		d := openDesk(t, newHome(t), size.X, size.Y)
		chosen := func() string { return strings.Trim(string(d.look().State), `"`) }
		seen := map[string]bool{}
		for range 20 {
			seen[chosen()] = true
			d.tap(ebiten.KeyArrowDown)
		}
		if len(seen) != 20 || chosen() != "first-line" {
			t.Errorf("%v: down leads to %d exercises and ends at %s, want 20 and first-line", size, len(seen), chosen())
		}
		d.tap(ebiten.KeyArrowRight)
		if got := chosen(); got != "rising-floor" {
			t.Errorf("%v: right of the first is %s", size, got)
		}
		d.tap(ebiten.KeyEnd)
		if got := chosen(); got != "disused-anchorage" {
			t.Errorf("%v: the last is %s", size, got)
		}
		d.button("The disused anchorage") // it is on the page
		d.tap(ebiten.KeyHome, ebiten.KeyPageDown)
		if got := chosen(); got == "first-line" || got == "disused-anchorage" {
			t.Errorf("%v: a page on from the first is %s", size, got)
		}
		d.tap(ebiten.KeyHome)
		for _, page := range []struct {
			key  ebiten.Key
			name string
		}{{ebiten.KeyR, "sessions"}, {ebiten.KeyS, "setting"}, {ebiten.KeyF, "practice"}, {ebiten.KeyP, "prepare"}} {
			d.tap(page.key)
			d.until(page.name, 120, func(s *shown) bool { return s.Screen == page.name })
			d.tap(ebiten.KeyEscape)
			d.until("the cards again", 120, func(s *shown) bool { return s.Screen == "choose" })
		}
		d.ticks(40) // a picture each
		m := d.picture("cards")
		if n := colours(m, area(d.look().Panes["cards"])); n < 200 {
			t.Errorf("%v: %d colours among the cards, want pictures", size, n)
		}
		before := d.button("The first line")
		d.guest.MoveCursor(float64(before.X), float64(before.Y))
		d.frame()
		d.guest.ScrollWheel(0, -2)
		d.ticks(4)
		d.frame()
		d.look()
		for _, b := range d.shown.Buttons {
			if b.Label == "The first line" {
				t.Errorf("%v: the first card is on the page after the wheel turned it", size)
			}
		}
		night := d.shown
		d.tap(ebiten.KeyT)
		dark, _ := spread(d.picture("cards, night"), image.Rectangle{Max: size})
		light, _ := spread(m, m.Rect)
		if dark > 0.6*light {
			t.Errorf("%v: T leaves the window %.0f bright, from %.0f; %d buttons", size, dark, light, len(night.Buttons))
		}
		d.tap(ebiten.KeyT, ebiten.KeyN)
		d.until("the watch on new ground", 240, func(s *shown) bool { return s.Screen == "watch" })
		d.close()
	}
}

// What is typed in free practice is drawn at once, and what will not do is drawn in the
// colour of alarm.
func TestFreePracticeDrawsWhatIsTyped(t *testing.T) {
	for _, theme := range []*look.Theme{&look.Day, &look.Night} {
		h := newHome(t)
		s := app.DefaultSettings()
		s.Theme = theme.Name
		if err := write(h.settings(), s.Encode()); err != nil {
			t.Fatal(err)
		}
		d := openDesk(t, h, 1280, 720)
		d.tap(ebiten.KeyF, ebiten.KeyPageDown, ebiten.KeyPageDown) // to the sonar
		ahead := area(d.look().Panes["ahead"])
		before := d.picture("practice")
		alarmed := func(m *image.RGBA) (n int) {
			for y := ahead.Min.Y; y < ahead.Max.Y; y++ {
				for x := ahead.Min.X; x < ahead.Max.X; x++ {
					if apart(m.RGBAAt(x, y), theme.Alarm) < 12 {
						n++
					}
				}
			}
			return n
		}
		if n := alarmed(before); n > 0 {
			t.Errorf("%s: %d pixels of alarm before anything is typed", theme.Name, n)
		}
		d.tap(ebiten.KeyTab)
		d.write("100")
		after := d.picture("practice, 100 m")
		changed := 0
		for y := ahead.Min.Y; y < ahead.Max.Y; y++ {
			for x := ahead.Min.X; x < ahead.Max.X; x++ {
				if apart(before.RGBAAt(x, y), after.RGBAAt(x, y)) > 8 {
					changed++
				}
			}
		}
		if share := float64(changed) / float64(ahead.Dx()*ahead.Dy()); share < 0.1 || alarmed(after) > 0 {
			t.Errorf("%s: another range scale changes %.2f of the drawing, %d pixels of alarm", theme.Name, share, alarmed(after))
		}
		d.write("000000")
		if n := alarmed(d.picture("practice, faulty")); n < 200 {
			t.Errorf("%s: a range scale of 100000000 m has %d pixels of alarm", theme.Name, n)
		}
		if !strings.Contains(string(d.look().State), "Range scale: 100000000 ") {
			t.Errorf("%s: it is not said: %s", theme.Name, d.shown.State)
		}
		d.close()
	}
}
