package app

import (
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim"
	"dryline/sim/survey"

	"github.com/ebitenui/ebitenui/widget"
)

// deskPage sets how the desk places the fish.
type deskPage struct {
	factor, sheave, offset, method, mark *widget.Text
}

func (p *deskPage) build(g *Game, w *Watch, r image.Rectangle) *widget.Container {
	l := g.Look
	say := func(longest string) *widget.Text { return l.Reading(longest, l.Body, l.Ink) }
	p.factor, p.sheave = say("catenary factor 0.000"), say("sheave 00.0 m above water")
	p.offset, p.method = say("00.0 m from antenna aft"), say("placed by filtered")
	p.mark = l.Label("\n\n", l.Small, l.Soft, r.Dx())
	pair := func(says *widget.Text, less, more func()) widget.PreferredSizeLocateableWidget {
		c := l.Row(0, 6, l.Button("−", look.Plain, less), l.Button("+", look.Plain, more), says)
		centred(c)
		return c
	}
	set := func(do sim.Do, by float64, now func() float64) func() {
		return func() { w.give(sim.Command{Do: do, Value: now() + by}) }
	}
	s := func() *survey.Settings { return &w.view.Settings }
	factor := func() float64 { return s().CatenaryFactor }
	sheave := func() float64 { return s().SheaveHeight }
	offset := func() float64 { return s().AntennaToTow }
	p.update(w)
	return l.Column(2, 6,
		l.Label("Layback", l.Strong, l.Ink, 0),
		pair(p.factor, set(sim.Factor, -0.005, factor), set(sim.Factor, 0.005, factor)),
		pair(p.sheave, set(sim.SheaveHeight, -0.1, sheave), set(sim.SheaveHeight, 0.1, sheave)),
		pair(p.offset, set(sim.TowOffset, -0.1, offset), set(sim.TowOffset, 0.1, offset)),
		l.Row(0, 6, l.Button("Next way", look.Plain, func() {
			w.give(sim.Command{Do: sim.PositionBy, Method: nextMethod(s().Position, w.exercise.Instruments.Beacon.Fitted)})
		}), p.method),
		l.Label("Cable counter", l.Strong, l.Ink, 0),
		p.mark,
		l.Button("Set the counter to the mark", look.Plain, func() {
			w.give(sim.Command{Do: sim.ZeroCounter, Value: w.view.Bridge.Mark})
		}),
	)
}

func (p *deskPage) update(w *Watch) {
	if p.factor == nil {
		return // chosen this frame and built in the next
	}
	s := &w.view.Settings
	p.factor.Label = fmt.Sprintf("catenary factor %.3f", s.CatenaryFactor)
	p.sheave.Label = fmt.Sprintf("sheave %.1f m above water", s.SheaveHeight)
	p.offset.Label = fmt.Sprintf("%.1f m from antenna aft", s.AntennaToTow)
	by := s.Position
	if by == "" {
		by = survey.ByTrack
	}
	p.method.Label = "placed by " + string(by)
	b := &w.view.Bridge
	past := "at the sheave"
	switch {
	case b.MarkPast > 0.25:
		past = fmt.Sprintf("%.1f m past the sheave", b.MarkPast)
	case b.MarkPast < -0.25:
		past = fmt.Sprintf("%.1f m still inboard", -b.MarkPast)
	}
	p.mark.Label = fmt.Sprintf("The %.0f m mark on the cable is %s; the counter shows %.1f m.", b.Mark, past, w.view.Reading.CableOut)
}

// nextMethod goes round the ways to place the fish that can be used.
func nextMethod(now survey.Position, beacon bool) survey.Position {
	if now == "" {
		now = survey.ByTrack
	}
	all := survey.Positions()
	at := 0
	for i, m := range all {
		if m == now {
			at = i
		}
	}
	for n := range all {
		m := all[(at+1+n)%len(all)]
		if beacon || !m.NeedsBeacon() {
			return m
		}
	}
	return now
}
