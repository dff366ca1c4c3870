package app

import (
	"fmt"
	"image"
	"strings"
	"testing"

	"github.com/hajimehoshi/ebiten/v2"
)

// Fingers do what a mouse would: each row is what is down in every update, and what comes of it: L, M and R for
// buttons that go down and l, m, r for those that are held, + and - for the wheel.
func TestFingers(t *testing.T) {
	defer func(was func() []image.Point) { touches = was }(touches)
	one := func(x, y int) []image.Point { return []image.Point{{x, y}} }
	two := func(gap int) []image.Point { return []image.Point{{200 - gap/2, 100}, {200 + gap/2, 100}} }
	again := func(n int, at []image.Point) (all [][]image.Point) {
		for range n {
			all = append(all, at)
		}
		return all
	}
	join := func(all ...[][]image.Point) (out [][]image.Point) {
		for _, a := range all {
			out = append(out, a...)
		}
		return out
	}
	up := [][]image.Point{nil}
	for _, row := range []struct {
		name string
		down [][]image.Point
		want string
	}{
		{"a short tap", join(again(2, one(50, 60)), up, up, up), "..L.."},
		{"a press", join(again(6, one(50, 60)), up, up), "...Lll.."},
		{"a drag", join(again(1, one(50, 60)), again(2, one(70, 60)), up), ".Ll."},
		{"held still", join(again(fingerRests+1, one(50, 60)), up), strings.Repeat(".", 3) + "L" + strings.Repeat("l", fingerRests-5) + "lRl" + "."},
		{"held, and moved", join(again(10, one(50, 60)), again(fingerRests, one(80, 60)), up), strings.Repeat(".", 3) + "L" + strings.Repeat("l", fingerRests+6) + "."},
		{"two fingers going apart, one before the other", join(again(2, one(150, 100)), again(1, two(100)), again(1, two(120)), again(1, two(120)), again(2, one(140, 100)), up, up), "..Mm+m...."},
		{"two fingers coming together", join(again(1, two(144)), again(1, two(100)), up, up), "Mm-.."},
	} {
		h := pointing{}
		var got strings.Builder
		for _, at := range row.down {
			touches = func() []image.Point { return at }
			h.read(1)
			any := false
			for b, letters := range [...]string{ebiten.MouseButtonLeft: "lL", ebiten.MouseButtonMiddle: "mM", ebiten.MouseButtonRight: "rR"} {
				k := h.buttons[b]
				if k.held && k.just {
					got.WriteByte(letters[1])
				} else if k.held {
					got.WriteByte(letters[0])
				}
				any = any || k.held
			}
			if h.wheel > 0 {
				got.WriteByte('+')
			} else if h.wheel < 0 {
				got.WriteByte('-')
			}
			if !any {
				got.WriteByte('.')
			}
			if len(at) == 1 && h.fingers == 1 && h.at != at[0] {
				t.Errorf("%s: it points at %v with the finger at %v", row.name, h.at, at[0])
			}
		}
		touches = func() []image.Point { return nil }
		was := h.at
		if h.read(1); h.at != was || h.at == (image.Point{}) {
			t.Errorf("%s: let go at %v, it points at %v", row.name, was, h.at)
		}
		if got.String() != row.want {
			t.Errorf("%s: %s, want %s", row.name, got.String(), row.want)
		}
	}
	// Fingers that go from 100 to 144 pixels apart zoom by 1.44, two steps of the wheel.
	h := pointing{}
	for _, gap := range []int{100, 144} {
		touches = func() []image.Point { return two(gap) }
		h.read(1)
	}
	if h.wheel < 1.999 || h.wheel > 2.001 || !h.pinch {
		t.Errorf("the wheel turns by %.3f, want 2", h.wheel)
	}
}

// All keys that the overlay of a screen letters can be tapped there, and what is tapped is the key: there is
// nothing that only a keyboard can do.
func TestKeysCanBeTapped(t *testing.T) {
	g := NewGame(&memory{}, false)
	d := debriefed(t, g, 10)
	sheet := NewPrepare(exerciseNamed(t, "first-line"), NewChoose())
	practice, err := NewPractice(exerciseNamed(t, "first-line"))
	if err != nil {
		t.Fatal(err)
	}
	screens := []Screen{practice, NewSetting(NewChoose()), newLaying(sheet, nil), sheet, NewChoose(), watchUnderWay(t, g, "first-line", 2), d, lookedAt(t, g, 5), atTheDesk(t, g, false),
		NewSessions(NewChoose())}
	mouse := map[string]bool{"Wheel": true, "Ctrl + wheel": true, "Right drag": true, "Right click": true, "Drag": true, "Click": true, "Leave": true, "Arrows": true, "": true} // cards are tapped themselves
	between := map[string]bool{", and ": true, " and ": true, ", ": true, " to ": true, "  ": true, ",": true}
	for _, s := range screens {
		name, _, _ := s.Inspect()
		for _, k := range s.Keys() {
			if mouse[k.Name] {
				continue
			}
			found := 0
			for _, part := range apartKeys(k.Name) {
				if _, _, ok := keyLettered(part); ok {
					found++
				} else if !between[part] {
					t.Errorf("%s: of %q nothing is known of %q", name, k.Name, part)
				}
			}
			if found == 0 {
				t.Errorf("%s: no key of %q can be tapped", name, k.Name)
			}
		}
	}
	for _, row := range []struct {
		names string
		want  []ebiten.Key
	}{
		{", and .", []ebiten.Key{ebiten.KeyComma, ebiten.KeyPeriod}}, {"PgUp, PgDn", []ebiten.Key{ebiten.KeyPageUp, ebiten.KeyPageDown}},
		{"Z, Shift + Z", []ebiten.Key{ebiten.KeyZ, ebiten.KeyZ}}, {"F2 to F8", []ebiten.Key{ebiten.KeyF2, ebiten.KeyF8}}, {"F", []ebiten.Key{ebiten.KeyF}},
		{"[, ]", []ebiten.Key{ebiten.KeyBracketLeft, ebiten.KeyBracketRight}}, {"1, 2, 3", []ebiten.Key{ebiten.KeyDigit1, ebiten.KeyDigit2, ebiten.KeyDigit3}},
	} {
		var got []ebiten.Key
		for _, part := range apartKeys(row.names) {
			if k, _, ok := keyLettered(part); ok {
				got = append(got, k)
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(row.want) {
			t.Errorf("%q are the keys %v, want %v", row.names, got, row.want)
		}
	}
}
