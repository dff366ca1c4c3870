package app

import (
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// placed is where a pass puts a contact, and the way it was run.
type placed struct {
	x, y, course float64
	run          int
}

// places are where the passes of a contact put it, as the survey stands.
func (d *Desk) places(c *survey.Contact) (out []placed) {
	p := d.papers.Desk
	standing := p.LatestLines()
	for _, q := range c.Passes {
		if q.Run < 1 || q.Run > len(standing) {
			continue
		}
		line := standing[q.Run-1]
		i := indexOf(line, q.Ping)
		if i < 0 || line.Pings[i].Height <= 0 {
			continue
		}
		m := q.Mark
		m.Slant *= line.RangeScale / p.Lines[q.Run-1].RangeScale // as sound goes now
		x, y, _ := m.Ground(&line.Pings[i])
		out = append(out, placed{x, y, line.Pings[i].Fix.Course, q.Run})
	}
	return out
}

// drawPlaces draws where each pass puts a contact, an arrow the way it was run: a layback that is wrong moves
// every place along its arrow.
func (s *placingStation) drawPlaces(dst *ebiten.Image, l *look.Look, at image.Rectangle) {
	look.Fill(dst, at, l.Panel)
	d := s.desk
	c := d.contact(s.number)
	if found := s.opposed(); c == nil && len(found) > 0 {
		c = found[0]
	}
	if c == nil && len(d.papers.Desk.Contacts) > 0 {
		c = &d.papers.Desk.Contacts[0]
	}
	if c == nil {
		return
	}
	places := d.places(c)
	reach := 4.0 // metres from the middle
	for _, p := range places {
		reach = max(reach, 1.3*math.Hypot(p.x-c.X, p.y-c.Y)+2)
	}
	says := fmt.Sprintf("Where each pass puts %s; an arrow is the way it was run. North up.", contactName(*c))
	look.Write(dst, look.Fitted(says, l.Small, at.Dx()-l.Px(20)), l.Small, float64(at.Min.X+l.Px(10)), float64(at.Min.Y+l.Px(4)), l.Soft, look.Left)
	pane := at
	pane.Min.Y += int(look.Tall(l.Small)) + l.Px(8)
	p := panes.Projection{Pane: pane}
	p.Fit(c.X-reach, c.Y-reach, c.X+reach, c.Y+reach)
	on := dst.SubImage(pane).(*ebiten.Image)
	mx, my := p.At(c.X, c.Y)
	step := 1.0
	for step*p.PerM < 24*l.Scale {
		step *= 5
	}
	for r := step; r <= reach; r += step {
		look.Ring(on, mx, my, r*p.PerM, l.Scale, look.Fade(l.Rule, 0.8))
	}
	look.Write(on, fmt.Sprintf("rings %g m apart", step), l.Small, float64(pane.Min.X+l.Px(10)), float64(pane.Max.Y)-look.Tall(l.Small)-float64(l.Px(4)), l.Soft, look.Left)
	if sys := d.papers.Desk.Calibrated.System; sys != nil && d.papers.Desk.Calibrated.Object == c.Number && sys.Radius > 0 {
		x, y := p.At(sys.X, sys.Y)
		look.Ring(on, x, y, sys.Radius*p.PerM, 2*l.Scale, l.Accent)
	}
	var labels panes.Labels
	for _, q := range places {
		x, y := p.At(q.x, q.y)
		sin, cos := math.Sincos(q.course)
		long := 22 * l.Scale
		tx, ty := x+long*sin, y-long*cos
		look.Stroke(on, x-long*sin, y+long*cos, tx, ty, 1.6*l.Scale, l.Plan)
		for _, side := range []float64{-1, 1} {
			look.Stroke(on, tx, ty, tx-7*l.Scale*(sin+side*0.5*cos), ty+7*l.Scale*(cos-side*0.5*sin), 1.6*l.Scale, l.Plan)
		}
		look.Disc(on, x, y, 5.5*l.Scale, l.Panel)
		look.Disc(on, x, y, 4*l.Scale, l.Mark)
		name := fmt.Sprintf("run %d", q.run)
		left, top := int(x+9*l.Scale), int(y-look.Tall(l.Small)/2)
		r := labels.Place(image.Rect(left, top, left+int(look.Wide(name, l.Small))+l.Px(4), top+int(look.Tall(l.Small))), pane)
		look.Write(on, name, l.Small, float64(r.Min.X+l.Px(2)), float64(r.Min.Y), l.Ink, look.Left)
	}
	look.Stroke(on, mx-6*l.Scale, my, mx+6*l.Scale, my, 1.5*l.Scale, l.Ink)
	look.Stroke(on, mx, my-6*l.Scale, mx, my+6*l.Scale, 1.5*l.Scale, l.Ink)
}
