package app

import (
	"image"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"
)

// pointing tells what points and presses: the mouse, or fingers on a screen that is touched. One finger is the left
// button; held still for a while it is the right one, which on the chart steers for the point. Two fingers move a
// picture, as the middle button does, and turn the wheel by how far they go apart. It is read once an update.
type pointing struct {
	touched bool // the last to point was a finger
	at      image.Point
	buttons [mouseButtons]button
	wheel   float64
	pinch   bool // the wheel is two fingers

	mouse   image.Point // where it was last
	down    image.Point // where the first finger came down
	updates int         // since it did
	fingers int
	moved   bool    // it went farther than a finger that rests
	apart   float64 // the two fingers, pixels
}

// button is whether a button is held, and whether it went down in this update.
type button struct{ held, just bool }

const mouseButtons = 3

// The times and ways of fingers: our own choices, in updates and pixels a point.
const (
	fingerWaits = 4  // for another to come down, before it counts as a press
	fingerRests = 36 // until it is the right button
	fingerSways = 8
)

// pointed is the one there is.
var pointed pointing

// touches are the fingers that are down, the first that came down first.
var touches = func() (at []image.Point) {
	for _, id := range ebiten.AppendTouchIDs(nil) {
		at = append(at, image.Pt(ebiten.TouchPosition(id)))
	}
	return at
}

// read takes what was pointed and pressed since the update before. scale is pixels a point.
func (h *pointing) read(scale float64) {
	at := touches()
	if len(at) == 0 && h.fingers == 0 {
		h.readMouse()
		return
	}
	h.touched = true
	h.follow(at, scale)
}

func (h *pointing) readMouse() {
	mouse := image.Pt(ebiten.CursorPosition())
	_, h.wheel = ebiten.Wheel()
	h.pinch = false
	any := false
	for b := range h.buttons {
		m := ebiten.MouseButton(b)
		h.buttons[b] = button{ebiten.IsMouseButtonPressed(m), inpututil.IsMouseButtonJustPressed(m)}
		any = any || h.buttons[b].held
	}
	if h.touched && !any && h.wheel == 0 && mouse == h.mouse {
		return // it points where the finger did, until the mouse is moved
	}
	h.touched, h.at, h.mouse = false, mouse, mouse
}

// follow goes on with fingers that are down at places, or have just been let go.
func (h *pointing) follow(at []image.Point, scale float64) {
	was := h.buttons
	var now [mouseButtons]bool
	h.wheel, h.pinch = 0, false
	switch {
	case len(at) == 0: // let go: a tap that was too short to count yet is a press all the same
		now[ebiten.MouseButtonLeft] = h.fingers == 1 && h.updates < fingerWaits && !was[ebiten.MouseButtonLeft].held
		h.fingers, h.moved = 0, false
		if now[ebiten.MouseButtonLeft] {
			h.fingers = 1 // it is let go with the next update
			h.updates = fingerWaits
		}
	case len(at) == 1 && h.fingers < 2:
		if h.fingers == 0 {
			h.down, h.updates, h.moved = at[0], 0, false
		}
		h.at, h.fingers = at[0], 1
		h.updates++
		h.moved = h.moved || gapOf(h.at, h.down) > fingerSways*scale
		now[ebiten.MouseButtonLeft] = h.updates >= fingerWaits || h.moved
		now[ebiten.MouseButtonRight] = h.updates == fingerRests && !h.moved
	case len(at) >= 2:
		h.at = at[0].Add(at[1]).Div(2)
		gap := gapOf(at[0], at[1])
		if h.fingers >= 2 && h.apart > 0 && gap > 0 {
			h.wheel, h.pinch = math.Log(gap/h.apart)/math.Log(1.2), true
		}
		h.apart, h.fingers = gap, 2
		now[ebiten.MouseButtonMiddle] = true
	} // one of two fingers let go: nothing, until both are
	for b := range h.buttons {
		h.buttons[b] = button{now[b], now[b] && !was[b].held}
	}
}

func gapOf(a, b image.Point) float64 { return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) }

// wentDown reports a button that went down, held one that is.
func wentDown(b ebiten.MouseButton) bool { return pointed.buttons[b].just }
func held(b ebiten.MouseButton) bool     { return pointed.buttons[b].held }

// turned is how far the wheel was turned, and whether that is to zoom where it scrolls as a rule: with Ctrl held,
// or by two fingers.
func turned() (by float64, zoom bool) {
	return pointed.wheel, pointed.pinch || ebiten.IsKeyPressed(ebiten.KeyControl)
}
