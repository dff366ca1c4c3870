package app

import (
	"fmt"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/passage"
)

// incidents are the things the crew plainly sees beside instruments and record: what failed
// on deck, what the helmsman made of an order, who else is on the water. What failed is
// left to the coach where he speaks of it.
func (w *Watch) incidents(l *look.Look, coached bool) []remark {
	b := &w.view.Bridge
	var list []remark
	if !coached {
		for _, f := range []struct {
			on   bool
			says string
		}{
			{b.EngineOut, "The engine gives no thrust."},
			{b.Jammed, "The winch turns neither way."},
			{b.Fouled, "Something holds the tow."},
		} {
			if f.on {
				list = append(list, remark{head: "On deck", ink: l.Alarm, text: f.says, face: l.Body, barred: true})
			}
		}
	}
	if b.Mending {
		list = append(list, remark{head: "On deck", ink: l.Ink, text: "Plugs and leads are being seen to.", face: l.Body})
	}
	if h := &b.Helmsman; h.Said != "" && w.brief.Help.Helmsman {
		says := fmt.Sprintf("You said “%s”.", h.Said)
		switch {
		case h.ReadBack == "":
			says += " He has not answered yet."
		case h.Due > 0:
			says += fmt.Sprintf(" He reads back “%s”. If that is not it, say belay.", h.ReadBack)
		default:
			says += fmt.Sprintf(" He read back “%s”, and that is done.", h.ReadBack)
		}
		list = append(list, remark{head: "Helmsman", ink: l.Ink, text: says, face: l.Body})
	}
	for i := range b.Traffic {
		list = append(list, remark{head: b.Traffic[i].Name, ink: l.Caution, text: w.trafficSays(&b.Traffic[i]), face: l.Body})
	}
	return list
}

// trafficSays says where another vessel is, how near she will come, and what her master
// answered.
func (w *Watch) trafficSays(t *passage.Traffic) string {
	r := &w.view.Reading
	dx, dy := t.X-r.X, t.Y-r.Y
	sin, cos := math.Sincos(float64(r.GridCourse()))
	tsin, tcos := math.Sincos(t.Course)
	soon, near := passage.Meeting(dx, dy, t.Speed*tsin-r.SpeedOverGround*sin, t.Speed*tcos-r.SpeedOverGround*cos)
	bearing := math.Mod(degrees(math.Atan2(dx, dy))+360, 360)
	says := fmt.Sprintf("%.0f m off, bearing %03.0f° grid, %.1f kn; ", math.Hypot(dx, dy), bearing, t.Speed/knot)
	if soon <= 0 {
		says += "she draws away."
	} else {
		says += fmt.Sprintf("nearest %.0f m in %d:%02d.", near, int(soon)/60, int(soon)%60)
	}
	switch {
	case t.Says != "":
		says += fmt.Sprintf(" Her master: “%s”", t.Says)
	case t.Called:
		says += " She is called, and has not answered yet."
	}
	return says
}

// fillWater puts on the chart who else is on the water.
func (c *chart) fillWater() {
	p, b := &c.plot, &c.view.Bridge
	p.Ships, p.Buoys = p.Ships[:0], p.Buoys[:0]
	for i := range b.Traffic {
		t := &b.Traffic[i]
		p.Ships = append(p.Ships, panes.Ship{X: t.X, Y: t.Y, Course: t.Course, Speed: t.Speed, Label: t.Name})
	}
	for _, at := range b.Buoys {
		p.Buoys = append(p.Buoys, at[0], at[1])
	}
}
