package app

import (
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/ebitenui/ebitenui/widget"
)

// deskPage sets how the desk places the fish, and says where it has her and the
// fish.
type deskPage struct {
	factor, sheave, offset, side, method, mark, vessel, fish *widget.Text
}

func (p *deskPage) build(g *Game, w *Watch, r image.Rectangle) *widget.Container {
	l := g.Look
	say := func(longest string) *widget.Text { return l.Reading(longest, l.Body, l.Ink) }
	p.factor, p.sheave = say("catenary factor 0.000"), say("sheave 00.0 m above water")
	p.offset, p.method = say("00.0 m aft of antenna"), say("fish placed by heading")
	p.side = say("-0.0 m right of antenna")
	p.mark = l.Label("\n\n", l.Small, l.Soft, r.Dx())
	p.vessel, p.fish = l.Label(" ", l.Small, l.Ink, 0), l.Label("\n", l.Small, l.Ink, r.Dx())
	pair := func(says *widget.Text, less, more func(), what string) widget.PreferredSizeLocateableWidget {
		c := l.Row(0, 6, explained(g, l.Button("−", look.Plain, less), what), explained(g, l.Button("+", look.Plain, more), what), says)
		centred(c)
		return c
	}
	set := func(do order.Do, by float64, now func() float64) func() {
		return func() { w.give(order.Command{Do: do, Value: w.orderedTo(do, now()) + by}) }
	}
	s := func() *survey.Settings { return &w.view.Settings }
	factor := func() float64 { return s().CatenaryFactor }
	sheave := func() float64 { return s().SheaveHeight }
	offset := func() float64 { return s().AntennaToTow }
	aside := func() float64 { return s().TowToStarboard }
	p.update(w)
	return l.Column(2, 4,
		l.Label("Layback", l.Strong, l.Ink, 0),
		pair(p.factor, set(order.Factor, -0.005, factor), set(order.Factor, 0.005, factor), "The share of the cable out that reaches from sheave to fish in a straight line; the rest is its curve."),
		pair(p.sheave, set(order.SheaveHeight, -0.1, sheave), set(order.SheaveHeight, 0.1, sheave), "How high the sheave is above the water."),
		pair(p.offset, set(order.TowOffset, -0.1, offset), set(order.TowOffset, 0.1, offset), "How far the sheave lies aft of the GNSS antenna."),
		pair(p.side, set(order.TowSide, -0.1, aside), set(order.TowSide, 0.1, aside), "How far the sheave lies to starboard of the GNSS antenna."),
		centredRow(l.Row(0, 6, explained(g, l.Button("Change", look.Plain, func() {
			w.give(order.Command{Do: order.PositionBy, Method: nextMethod(s().Position, w.brief.Beacon)})
		}), "How the fish is placed: its layback along the track made good or the heading, by its beacon, or by both filtered."), p.method)),
		l.Label("Cable counter", l.Strong, l.Ink, 0),
		p.mark,
		explained(g, l.Button("Set counter to mark", look.Plain, func() {
			w.give(order.Command{Do: order.ZeroCounter, Value: w.view.Bridge.Mark})
		}), "The cable is marked every five metres. When a mark is at the sheave, set the counter to it."),
		p.vessel, p.fish,
	)
}

func (p *deskPage) update(w *Watch) {
	if p.factor == nil {
		return // chosen this frame and built in the next
	}
	s := &w.view.Settings
	p.factor.Label = fmt.Sprintf("catenary factor %.3f", s.CatenaryFactor)
	p.sheave.Label = fmt.Sprintf("sheave %.1f m above water", s.SheaveHeight)
	p.offset.Label = fmt.Sprintf("%.1f m aft of antenna", s.AntennaToTow)
	p.side.Label = fmt.Sprintf("%.1f m right of antenna", s.TowToStarboard)
	by := s.Position
	if by == "" {
		by = survey.ByTrack
	}
	p.method.Label = "fish placed by " + string(by)
	f := &w.view.Fix
	p.vessel.Label = "antenna " + w.place(f.VesselX, f.VesselY)
	p.fish.Label = "fish " + w.place(f.X, f.Y) + ", " + w.globe(f.X, f.Y)
	if f.Fault != "" {
		p.fish.Label = "fish: " + f.Fault
	}
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
