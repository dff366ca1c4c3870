package app

import (
	"image"
	"math"
	"testing"

	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// A contact marked on the chart is bracketed once in the ping in which the fish
// passes it, where that ping sees it; the pings are gone through once each.
func TestContactsAreSeenInOtherPasses(t *testing.T) {
	_, w := fallWatch(t, "first-line", 5)
	late := watchLonger(t, w, 175)
	for i := range w.view.Contacts {
		c := &w.view.Contacts[i]
		list := w.fall.passesOf(c)
		if len(list) != 1 {
			t.Fatalf("contact %d at %.0f, %.0f: passed %d times, want once", c.Number, c.X, c.Y, len(list))
		}
		at := list[0]
		p, ok := w.fall.pinged(at.ping)
		if !ok {
			t.Fatalf("ping %d is not held", at.ping)
		}
		x, y, ok := survey.GroundAt(p.Fix, p.Height, at.starboard, at.slant)
		if off := math.Hypot(x-c.X, y-c.Y); !ok || off > 1 {
			t.Errorf("contact %d is bracketed %.1f m off, want within 1 m", c.Number, off)
		}
		// All at once it comes to the same.
		w.fall.passed = nil
		if again := w.fall.passesOf(c); len(again) != 1 || again[0] != at {
			t.Errorf("contact %d: all at once %v, ping by ping %v", c.Number, again, at)
		}
	}
	if late == 0 {
		t.Error("no pings came")
	}
}

// watchLonger lets a watch go on, looking for passes every second, and returns
// how many pings came.
func watchLonger(t *testing.T, w *Duty, seconds int) int {
	t.Helper()
	before := len(w.fall.history)
	for range seconds {
		w.crew.Pass(1, 1e12)
		w.view = w.crew.View()
		w.takeRows()
		for i := range w.view.Contacts {
			w.fall.passesOf(&w.view.Contacts[i])
		}
	}
	return len(w.fall.history) - before
}

// Chosen, a contact is brought into sight in the waterfall if its ping is held.
func TestChosenContactIsInSight(t *testing.T) {
	_, w := fallWatch(t, "first-line", 180)
	c := w.view.Contacts[0]
	list := w.fall.passesOf(&c)
	if len(list) == 0 {
		t.Fatal("the contact is not passed")
	}
	r := w.fall.rect()
	for _, row := range []struct{ zoom, back float64 }{{1, 0}, {1, 1200}, {8, 0}} {
		w.fall.looking.zoom, w.fall.looking.scrolled, w.fall.looking.across = row.zoom, row.back, 0
		w.fall.keepInside(r)
		w.choose(c)
		v := w.fall.part(r)
		bin, age, ok := w.fall.spotOf(list[0])
		at := image.Pt(r.Min.X+int((bin-v.Left)*v.PerBin), r.Min.Y+int((age-v.Newest)*v.PerRow))
		if !ok || !at.In(r) || w.contacts.chosen != c.Number {
			t.Errorf("zoom %g, %g rows back: the contact is at %v, want it in %v", row.zoom, row.back, at, r)
		}
	}
}

// The list turns to a contact that is new or was chosen, and otherwise stays
// where it was turned to.
func TestListTurnsToTheChosenContact(t *testing.T) {
	g, w := fallWatch(t, "first-line", 2)
	v := *w.view
	for n := 1; n <= 30; n++ {
		v.Contacts = append(v.Contacts[:n-1:n-1], survey.Contact{Number: n})
	}
	w.view = &v
	w.side.tab = tabContacts
	p := &w.side.contacts
	listed := func() map[string]bool {
		g.ui.Container = w.Build(g, g.area())
		out := map[string]bool{}
		eachControl(g.ui.Container, func(label string, _ image.Rectangle) { out[label] = true })
		return out
	}
	for _, n := range []int{1, 30, 12, 11, 2} {
		w.contacts.chosen = n
		if l := listed(); !l[contactName(v.Contacts[n-1])+"  "+className(v.Contacts[n-1])] {
			t.Errorf("contact %d is chosen and not listed: %v", n, l)
		}
	}
	p.first += 10
	if listed(); p.first < 5 {
		t.Errorf("turned on by hand, the list goes back to %d", p.first)
	}
}

// What a drag measures is lettered inside the waterfall wherever the pointer is.
func TestMeasureStaysInThePane(t *testing.T) {
	g, w := fallWatch(t, "first-line", 20)
	r := w.fall.rect()
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	g.screen = w
	g.ui.Container = w.Build(g, g.area())
	for _, at := range []image.Point{{r.Min.X + 3, r.Min.Y + 3}, {r.Max.X - 3, r.Min.Y + 3}, {r.Max.X - 3, r.Min.Y + 100}} {
		n := 0
		watchedBy(func() { figure(dst, at, r, "length 12.3 m", g.Look) }, func(s string, where image.Rectangle) {
			n++
			if !where.In(r) {
				t.Errorf("at %v: %q at %v is out of %v", at, s, where, r)
			}
		})
		if n != 1 {
			t.Errorf("at %v: lettered %d times", at, n)
		}
	}
}

// A click on the bracket of a contact chooses it, and beside it none.
func TestAClickOnItsBracketChoosesAContact(t *testing.T) {
	g, w := fallWatch(t, "first-line", 180)
	c := w.view.Contacts[0]
	w.choose(c)
	passes := w.fall.passesOf(&c)
	if len(passes) == 0 {
		t.Fatal("the contact is not passed")
	}
	r := w.fall.rect()
	x, y, radius, _ := w.fall.bracketOf(r, w.fall.part(r), &c, passes[len(passes)-1], g.Look)
	at := image.Pt(int(x), int(y))
	click := func(by image.Point) int {
		w.contacts.chosen = 0
		w.press(g, at.Add(by))
		w.release(g)
		return w.contacts.chosen
	}
	if got := click(image.Pt(int(radius/2), 3)); got != c.Number {
		t.Errorf("a click within the bracket chooses %d, want %d", got, c.Number)
	}
	if got := click(image.Pt(0, int(radius)+4)); got != 0 {
		t.Errorf("a click beside the bracket chooses %d, want none", got)
	}
}
