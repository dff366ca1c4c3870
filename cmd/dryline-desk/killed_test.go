//go:build !js

package main

import (
	"path/filepath"
	"slices"
	"testing"

	"dryline/sim/order"

	"github.com/hajimehoshi/ebiten/v2"
)

// With time standing still nothing but an order has anything written down: killed
// right after each of a script of orders, the program has lost none of them, and
// the next one to be started goes on from there.
func TestKilledAfterAnyOrderNoneIsLost(t *testing.T) {
	h := newHome(t)
	var orders []order.Do
	const log = "first-line-3-watch.jsonl"
	for i, step := range []struct {
		does []order.Do
		do   func(d *desk)
	}{
		{[]order.Do{order.Cable}, func(d *desk) { d.tap(ebiten.KeyPageDown) }},
		{[]order.Do{order.Rudder}, func(d *desk) { d.hold(ebiten.KeyLeft, 2) }},
		{[]order.Do{order.SteerHeading}, func(d *desk) { d.tap(ebiten.KeyHome) }},
		{[]order.Do{order.Gain}, func(d *desk) { d.tap(ebiten.KeyBracketRight) }},
		{[]order.Do{order.Speed, order.Speed}, func(d *desk) { d.tap(ebiten.KeyUp, ebiten.KeyUp) }},
		{[]order.Do{order.Range}, func(d *desk) { d.tap(ebiten.KeyF) }},
		{[]order.Do{order.LogOn}, func(d *desk) { d.tap(ebiten.KeyL) }},
		{[]order.Do{order.Mark}, func(d *desk) { d.tap(ebiten.KeyM); d.click(middle(area(d.look().Panes["chart"]))) }},
		{[]order.Do{order.LogOff}, func(d *desk) { d.tap(ebiten.KeyL) }},
		{nil, func(d *desk) { d.tap(ebiten.KeyL, ebiten.KeyF); orders = append(orders, order.LogOn) }}, // the log on: F is refused
	} {
		var args []string
		if i > 0 {
			args = []string{filepath.Join(h.out(), log)}
		} else {
			args = []string{"first-line"}
		}
		d := openDesk(t, h, 1024, 600, args...)
		if i == 0 {
			d.tap(ebiten.KeySpace)
		}
		s := d.until("time stands still", 2400, func(s *shown) bool { return s.Screen == "watch" && s.watch.Restored == 1 && s.watch.Paused })
		at := s.watch.Tick
		step.do(d)
		if code := d.kill(); code != -1 {
			t.Fatalf("step %d: exit status %d, want it killed", i, code)
		}
		orders = append(orders, step.does...)
		l, _ := again(t, filepath.Join(h.out(), log))
		got := []order.Do{}
		for _, c := range l.Commands[1:] { // the first is the lookout's
			got = append(got, c.Do)
		}
		if !slices.Equal(got, orders) {
			t.Fatalf("step %d: %v are kept, want %v", i, got, orders)
		}
		n := len(l.Commands)
		if i == 0 { // it was running until then, and what was shown may have been a tick old
			at = l.Commands[n-1].Tick
		}
		if l.Commands[n-1].Tick != at || l.Ticks != at {
			t.Errorf("step %d: kept for tick %d up to %d, it was given at %d", i, l.Commands[n-1].Tick, l.Ticks, at)
		}
	}
}
