package app

import (
	"image"
	"strings"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"
)

// tapped is a key that was pointed at in the overlay of the keys: for one update it is pressed. So all that keys do
// can be done on a screen that is touched.
var tapped = struct {
	on    bool
	key   ebiten.Key
	shift bool
}{}

// justPressed reports a key pressed since the last update.
var justPressed = func(k ebiten.Key) bool { return tapped.on && tapped.key == k || inpututil.IsKeyJustPressed(k) }

// shiftHeld reports the shift key held.
func shiftHeld() bool { return tapped.on && tapped.shift || ebiten.IsKeyPressed(ebiten.KeyShift) }

// keyTap is where the name of a key stands in the overlay.
type keyTap struct {
	name  string
	at    image.Rectangle
	key   ebiten.Key
	shift bool
}

// lettered are the keys as the overlay letters them, other than letters, digits and F1 to F12.
var lettered = map[string]ebiten.Key{
	"Left": ebiten.KeyLeft, "Right": ebiten.KeyRight, "Up": ebiten.KeyUp, "Down": ebiten.KeyDown, "Home": ebiten.KeyHome, "End": ebiten.KeyEnd,
	"PgUp": ebiten.KeyPageUp, "PgDn": ebiten.KeyPageDown, "Tab": ebiten.KeyTab, "Enter": ebiten.KeyEnter, "Esc": ebiten.KeyEscape,
	"Space": ebiten.KeySpace, "Delete": ebiten.KeyDelete, "Backspace": ebiten.KeyBackspace, "[": ebiten.KeyBracketLeft, "]": ebiten.KeyBracketRight,
	",": ebiten.KeyComma, ".": ebiten.KeyPeriod, "+": ebiten.KeyEqual, "=": ebiten.KeyEqual, "-": ebiten.KeyMinus,
}

// keyLettered is the key of a name, and whether it is one.
func keyLettered(name string) (k ebiten.Key, shift, ok bool) {
	name, shift = strings.CutPrefix(name, "Shift + ")
	if k, ok = lettered[name]; ok {
		return k, shift, true
	}
	if len(name) == 1 && name[0] >= '0' && name[0] <= '9' {
		return ebiten.KeyDigit0 + ebiten.Key(name[0]-'0'), shift, true
	}
	letter := len(name) == 1 && name[0] >= 'A' && name[0] <= 'Z'
	if f, isF := strings.CutPrefix(name, "F"); !letter && (!isF || f == "") {
		return 0, false, false
	}
	return k, shift, k.UnmarshalText([]byte(name)) == nil
}

// apartKeys takes the names of a row of the overlay apart: names of keys and what stands between them.
func apartKeys(names string) (parts []string) {
	for names != "" {
		at, long := len(names), 0
		for _, between := range []string{", and ", " and ", ", ", " to ", "  "} {
			// A comma may be a key itself, at the beginning.
			if i := strings.Index(names[1:], between); i >= 0 && i+1 < at {
				at, long = i+1, len(between)
			}
		}
		if strings.HasPrefix(names, ",") && at > 1 {
			at, long = 1, 0
		}
		parts = append(parts, names[:at])
		if long > 0 {
			parts = append(parts, names[at:at+long])
		}
		names = names[at+long:]
	}
	return parts
}
