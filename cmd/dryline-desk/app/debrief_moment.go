package app

import (
	"image"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/debrief"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// link is lettering of the account that leads to a moment.
type link struct {
	at image.Rectangle
	to float64 // seconds
}

// cause letters why points were lost, with its moment if it has one.
func (s *sheet) cause(before, says string, c *debrief.Cause) {
	if !s.debrief.bar.timed(c) {
		s.paragraph(before+" "+says, s.l.Ink)
		return
	}
	s.linked(before, says, c.From)
}

// linked letters a paragraph that leads to a moment, whose time stands in it.
func (s *sheet) linked(before, says string, to float64) {
	d, l := s.debrief, s.l
	clock := d.bar.clock(to)
	if before != "" {
		before += " "
	}
	lines := wrapped(strings.TrimSpace(before+clock+"  "+says), l.Body, s.wide)
	tall := look.Tall(l.Body) + float64(l.Px(1))
	at := image.Rect(int(s.x)-l.Px(4), int(s.y), int(s.x+s.wide)+l.Px(4), int(s.y+tall*float64(len(lines))))
	at = at.Intersect(s.pane.Bounds())
	if d.bar.gone.In(at) {
		look.Fill(s.pane, at, l.Sunk)
	}
	if !at.Empty() {
		d.links = append(d.links, link{at, to})
	}
	if len(lines) > 0 { // the time is underlined, as what leads somewhere
		x := s.x + look.Wide(strings.TrimRight(before, " ")+" ", l.Body)
		if before == "" {
			x = s.x
		}
		y := s.y + look.Tall(l.Body) - float64(l.Px(1))
		look.Fill(s.pane, image.Rect(int(x), int(y), int(x+look.Wide(clock, l.Body)), int(y)+max(l.Px(1), 1)), l.Accent)
	}
	for _, line := range lines {
		look.Write(s.pane, line, l.Body, s.x, s.y, l.Ink, look.Left)
		s.y += tall
	}
}

// firstLink is where the first lettering that leads to a moment is.
func (d *Debrief) firstLink() Rect {
	if len(d.links) == 0 {
		return Rect{}
	}
	return rect(d.links[0].at)
}

// failed are the gates that were not met.
func (d *Debrief) failed() []string {
	out := []string{}
	for _, g := range d.report.Score.Gates {
		if !g.Met {
			out = append(out, g.ID)
		}
	}
	return out
}

// mouse chooses moments.
func (d *Debrief) mouse(g *Game, at image.Point, taken bool) {
	d.bar.point(at, taken)
	switch {
	case wentDown(ebiten.MouseButtonLeft) && !taken:
		if d.scrubbed = d.bar.on; d.scrubbed {
			d.bar.press(at, g.Look)
			d.showMoment()
			return
		}
		for _, k := range d.links {
			if at.In(k.at) {
				d.bar.choose(k.to)
				d.showMoment()
			}
		}
	case !held(ebiten.MouseButtonLeft):
		d.scrubbed = false
	case d.scrubbed && at.X != d.pressed:
		d.bar.choose(d.bar.time(at.X))
		d.showMoment()
	}
	d.pressed = at.X
}

// showMoment shows vessel and fish on the chart where the desk had them at the moment
// that is chosen.
func (d *Debrief) showMoment() {
	track := d.crew.View().Track
	p, ok := trackAt(track, d.bar.at)
	if !ok {
		return
	}
	f := &p.Fix
	d.plot.X, d.plot.Y, d.plot.Heading = f.VesselX, f.VesselY, f.Course+p.Crab
	d.plot.FishX, d.plot.FishY, d.plot.FishHeading = f.X, f.Y, f.Heading
}

// trackAt is the point of a track nearest before a moment, or the first.
func trackAt(track []survey.TrackPoint, at float64) (survey.TrackPoint, bool) {
	var found survey.TrackPoint
	for i, p := range track {
		if i > 0 && p.Fix.Time > at+0.05 {
			break
		}
		found = p
	}
	return found, len(track) > 0
}

// lookAgain looks at the session again, at the moment that is chosen.
func (d *Debrief) lookAgain(g *Game) {
	if !d.free(g) {
		return
	}
	next, err := newAgain(g, d, d.bar.tick(), nil)
	if err != nil {
		g.say("The session cannot be flown again: " + err.Error())
		return
	}
	d.away = true
	g.Go(next)
}

// tryAgain begins a practice session at the moment that is chosen.
func (d *Debrief) tryAgain(g *Game) {
	if !d.free(g) {
		return
	}
	c, err := d.crew.TryAgain(d.bar.tick(), g.Apart)
	if err != nil {
		g.say("The session cannot be tried again: " + err.Error())
		return
	}
	w := newDuty(g, c)
	w.pace.set(1, true)
	w.journal.tick = c.Parent().Tick // nothing to keep has happened yet
	d.away = false
	g.Go(w)
}

// free reports whether the crew has time for the session: it may be making the report.
func (d *Debrief) free(g *Game) bool {
	if d.making != nil {
		g.sayWhile("The report is still being made.", func() bool { return d.making != nil })
		return false
	}
	if d.cutting {
		g.sayWhile("The pictures of the objects are still being cut from the record.", func() bool { return d.cutting })
		return false
	}
	return true
}
