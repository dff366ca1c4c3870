package app

import (
	"image"
	"testing"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// dealt is a deck of so many cards in a window.
func dealt(wide, tall, count int) (*deck, *look.Look) {
	l := look.New(&look.Day, 1)
	d := new(deck)
	cards, _ := halves(l, image.Rect(0, 0, wide, tall))
	d.arrange(l, cards, count)
	return d, l
}

// There are as many columns as there is room for, and every card lies whole on the page and
// on no other.
func TestCardsFillTheWindow(t *testing.T) {
	for _, row := range []struct{ wide, tall, columns int }{{1024, 578, 1}, {1280, 698, 2}, {1920, 1058, 4}, {3840, 2138, 4}} {
		for _, count := range []int{0, 1, 7, 20, 100} {
			d, l := dealt(row.wide, row.tall, count)
			if count == 20 && d.columns != row.columns {
				t.Errorf("%d wide: %d columns of %d cards, want %d", row.wide, d.columns, count, row.columns)
			}
			from, to := d.shown()
			for i := from; i < to; i++ {
				at := d.place(i, l)
				if !at.In(d.at) || at.Dx() < l.Px(leastCard) || at.Dy() < l.Px(leastCardTall) {
					t.Errorf("%d by %d, %d cards: card %d at %v, outside of %v or too small", row.wide, row.tall, count, i, at, d.at)
				}
				if i > from && at.Overlaps(d.place(i-1, l)) {
					t.Errorf("%d by %d: card %d lies on the one before", row.wide, row.tall, i)
				}
			}
		}
	}
}

// Down alone leads through all cards and back to the first, up is the way back; left and
// right go one on and one back.
func TestKeysReachEveryCard(t *testing.T) {
	for _, count := range []int{1, 2, 5, 20, 21} {
		d, _ := dealt(1920, 1058, count)
		seen := map[int]bool{}
		for range count {
			seen[d.chosen] = true
			was := d.chosen
			d.step(0, 1)
			next := d.chosen
			d.step(0, -1)
			if d.chosen != was {
				t.Fatalf("%d cards: down and up again from %d leads to %d", count, was, d.chosen)
			}
			d.chosen = next
		}
		if len(seen) != count || d.chosen != 0 {
			t.Errorf("%d cards: down reaches %d and ends at %d", count, len(seen), d.chosen)
		}
		d.step(-1, 0)
		if d.chosen != count-1 {
			t.Errorf("%d cards: left of the first is %d", count, d.chosen)
		}
		d.step(1, 0)
		if d.chosen != 0 {
			t.Errorf("%d cards: right of the last is %d", count, d.chosen)
		}
	}
	d, _ := dealt(1920, 1058, 0)
	d.step(0, 1)
	d.step(1, 0)
	if d.chosen != 0 {
		t.Errorf("of no cards %d is chosen", d.chosen)
	}
}

// The page goes after the card that is chosen, and stays where it was turned until another is.
func TestThePageFollowsTheChosenCard(t *testing.T) {
	d, l := dealt(1280, 698, 100)
	on := func() bool { from, to := d.shown(); return d.chosen >= from && d.chosen < to }
	for range 12 {
		d.page(1)
		d.arrange(l, image.Rect(d.at.Min.X, d.at.Min.Y, d.at.Max.X, d.barAt.Max.Y), 100)
		if !on() {
			t.Fatalf("card %d is not on the page", d.chosen)
		}
	}
	if d.chosen < 98 {
		t.Errorf("after many pages %d is chosen", d.chosen)
	}
	d.wheel(1.5)
	d.wheel(1.5) // as a touch pad turns
	first := d.rows() - d.fit - 3
	d.arrange(l, image.Rect(d.at.Min.X, d.at.Min.Y, d.at.Max.X, d.barAt.Max.Y), 100)
	if d.first != first || on() && d.fit < 4 {
		t.Errorf("three notches up: row %d, want %d", d.first, first)
	}
	d.wheel(1e6)
	if d.first != 0 {
		t.Errorf("the page turns beyond its start: row %d", d.first)
	}
}

// A picture of every ground is there after as many frames, the one that is open first; a
// ground that has no depths has none and says so.
func TestPicturesComeOneAFrame(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	c := chooseAt("disused-anchorage")
	g.next = c
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	done := func() (n int) {
		for _, s := range c.sketches {
			if s.done() {
				n++
			}
		}
		return n
	}
	for k := range c.exercises {
		frame(g, dst)
		if done() != k+1 {
			t.Fatalf("after %d frames %d pictures are there", k+1, done())
		}
		if k == 0 && !c.sketches.of(c.chosen(), c.chosen().Seed).done() {
			t.Error("the first is not that of the card that is open")
		}
	}
	broken := *c.exercises[0]
	broken.Seabed.East = 0
	broken.Seabed.North = 0
	s := newSketch(&broken, 1)
	if s.work(); !s.none || s.says() != nil {
		t.Error("ground without a size is drawn")
	}
	s.draw(dst, image.Rect(0, 0, 100, 100), g.Look, sketched{})
}
