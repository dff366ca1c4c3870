package main

import (
	"math"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// fingers puts fingers down at places in turn, lets each rest for frames, and lets them go.
func (w *window) fingers(frames int, steps ...[]*input.TouchPoint) {
	w.t.Helper()
	for i, at := range steps {
		kind := input.DispatchTouchEventTypeTouchMove
		if i == 0 {
			kind = input.DispatchTouchEventTypeTouchStart
		}
		call(w, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: at})
		for range frames {
			w.frames()
		}
	}
	call(w, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: input.DispatchTouchEventTypeTouchEnd, TouchPoints: []*input.TouchPoint{}})
	w.frames()
	w.frames()
}

// tap taps the middle of a rectangle.
func (w *window) tap(at [4]int) {
	w.t.Helper()
	w.fingers(2, []*input.TouchPoint{{X: float64(at[0]+at[2]) / 2, Y: float64(at[1]+at[3]) / 2}})
}

// A watch on a screen that is touched, at the least size, without keyboard or mouse: begun, logged, steered for a
// point by a finger that rests, the chart zoomed by two, a key of the overlay tapped, and an order typed.
func TestServeTouched(t *testing.T) {
	if testing.Short() {
		t.Skip("a watch in a browser")
	}
	path := chromium(t)
	at := builtSite(t)
	w := newWindow(t, path)
	w.do(chromedp.EmulateViewport(1024, 600))
	five := int64(5)
	call(w, emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: true, MaxTouchPoints: five})
	w.open(at)
	w.until("exercises to choose from", func(s told) bool { return s.Screen == "choose" && len(s.Buttons) > 0 })
	tapButton := func(label string) {
		t.Helper()
		for _, b := range w.tell().Buttons {
			if b.Label == label {
				w.tap(b.At)
				return
			}
		}
		t.Fatalf("no button %q: %v", label, w.tell().Buttons)
	}
	tapButton("Begin the watch")
	w.untilWatch("the watch", func(s onWatch) bool { return s.Tick > 5 })
	tapButton("Log on")
	w.untilWatch("logging", func(s onWatch) bool { return s.Logging != "" })
	tapButton("Log off")
	w.untilWatch("not logging", func(s onWatch) bool { return s.Logging == "" })

	chart := w.tell().Panes["chart"]
	x, y := float64(chart[0]+chart[2])/2, float64(chart[1]+chart[3])/2
	w.fingers(50, []*input.TouchPoint{{X: x, Y: y}})
	w.untilWatch("steering for a point", func(s onWatch) bool { return s.Steering.Do == "steer_point" })

	before := w.tell().watch().PerM
	apart := func(gap float64) []*input.TouchPoint {
		one, two := 1.0, 2.0
		return []*input.TouchPoint{{X: x - gap/2, Y: y, ID: &one}, {X: x + gap/2, Y: y, ID: &two}}
	}
	w.fingers(3, apart(60), apart(90), apart(120))
	if after := w.tell().watch().PerM; math.Abs(after/before-2) > 0.1 {
		t.Errorf("fingers that go twice as far apart zoom by %.2f", after/before)
	}

	tapKey := func(name string) {
		t.Helper()
		s := w.tell()
		bottom := eval[int](w, "innerHeight")
		right := eval[int](w, "innerWidth")
		w.tap([4]int{right - 40, bottom - 12, right - 20, bottom - 4})
		s = w.until("the keys", func(s told) bool { return len(s.Keys) > 0 })
		for _, k := range s.Keys {
			if k.Label == name {
				w.tap(k.At)
				return
			}
		}
		t.Fatalf("no key %q in the overlay: %v", name, s.Keys)
	}
	tapKey("K")
	w.untilWatch("the whole plan on the chart", func(s onWatch) bool { return math.Abs(s.PerM/before-1) < 0.01 })
	tapKey("Y")
	s := w.until("orders typed", func(s told) bool {
		for _, b := range s.Buttons {
			if b.Label == "Order it" {
				return true
			}
		}
		return false
	})
	for _, b := range s.Buttons {
		if b.Label == "16.0" { // metres of cable
			w.tap(b.At)
		}
	}
	if active := eval[string](w, "document.activeElement.id"); active != "tempInput" {
		t.Errorf("a field was tapped and %q has the keyboard", active)
	}
	w.clean(at)
}
