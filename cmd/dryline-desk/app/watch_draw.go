package app

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/passage"

	"github.com/hajimehoshi/ebiten/v2"
)

// Draw implements [Screen].
func (w *Watch) Draw(g *Game, dst *ebiten.Image) {
	l := g.Look
	w.section.Draw(dst, w.at.section, l, w.sideView())
	w.drawDials(dst, l)
	w.drawFall(g, dst)
	panes.Chart(dst, &w.chart, w.mosaic, w.shade(g), l, &w.plot)
	for _, r := range []image.Rectangle{w.at.underSection, w.at.rightOfFall, w.at.leftOfSide} {
		grip(dst, r, l)
	}
}

// grip shows that an edge can be dragged.
func grip(dst *ebiten.Image, r image.Rectangle, l *look.Look) {
	cx, cy := float64(r.Min.X+r.Max.X)/2, float64(r.Min.Y+r.Max.Y)/2
	for i := -1; i <= 1; i++ {
		d := float64(i) * 6 * l.Scale
		if r.Dx() > r.Dy() {
			look.Disc(dst, cx+d, cy, 1.3*l.Scale, l.Soft)
		} else {
			look.Disc(dst, cx, cy+d, 1.3*l.Scale, l.Soft)
		}
	}
}

// Over implements [Screen].
func (w *Watch) Over(g *Game, dst *ebiten.Image) {
	w.side.draw(g, w, dst)
	if w.view.Back < 1 {
		w.goingBack(g, dst)
	}
}

// goingBack shows how far a resumed session has been brought back.
func (w *Watch) goingBack(g *Game, dst *ebiten.Image) {
	l := g.Look
	look.Fill(dst, g.size, look.Fade(l.Desk, 0.7))
	x, y := float64(g.size.Dx())/2, float64(g.size.Dy())/2
	says := "Going back to where the session was left"
	if w.journal.over {
		says = "Flying it again for the debrief"
	}
	look.Write(dst, says, l.Body, x, y-float64(l.Px(34)), l.Ink, look.Middle)
	bar := image.Rect(int(x)-l.Px(160), int(y), int(x)+l.Px(160), int(y)+l.Px(12))
	look.Fill(dst, bar, l.Sunk)
	done := bar
	done.Max.X = bar.Min.X + int(w.view.Back*float64(bar.Dx()))
	look.Fill(dst, done, l.Accent)
}

// shade is how grey becomes colour, by what the person has set.
func (w *Watch) shade(g *Game) panes.Shade {
	return panes.Shade{Ramp: rampNamed(g.Settings.Ramp), Contrast: g.Settings.Contrast, Lift: w.brightness}
}

// sideView is what the view from the side shows.
func (w *Watch) sideView() *panes.Side {
	v := w.view
	spec, r := &w.exercise.Vessel, &v.Reading
	scale := v.Recorder.RangeScale
	s := &panes.Side{
		Bow: spec.Length / 2, Stern: -spec.Length / 2, Draft: spec.Draft,
		SheaveAft: -spec.Sheave.Forward, SheaveUp: spec.Sheave.Up, Heave: r.Heave, Pitch: r.Pitch,
		CableOut: r.CableOut, FishAft: v.Fix.Layback - spec.Antenna.Forward, FishDepth: r.FishDepth, FishPitch: r.FishPitch,
		Height: v.Height, Locked: w.locked(), Layback: v.Fix.Layback - v.Settings.AntennaToTow,
		BandLow: v.Stands.Low * scale, BandHigh: v.Stands.High * scale, RangeScale: scale,
		Slack: r.SpeedOverGround < slackWay,
	}
	s.Knocked, s.Aground = w.knocked()
	if t := v.Scene; t != nil {
		sin, cos := math.Sincos(t.Heading)
		truth := &panes.SideTruth{
			Floor:   func(astern float64) float64 { return t.Floor(t.X-astern*sin, t.Y-astern*cos) - t.Level },
			Surface: func(astern float64) float64 { return t.Surface(t.X-astern*sin, t.Y-astern*cos) - t.Level },
		}
		for _, p := range t.Cable {
			truth.Cable = append(truth.Cable, -((p[0]-t.X)*sin + (p[1]-t.Y)*cos), p[2]-t.Level)
		}
		s.Truth = truth
	}
	return s
}

const (
	slackWay   = knot // under which the cable hangs rather than streams: our own choice
	knockStays = 6.0  // seconds that a knock is told of for sure: our own choice
)

// knocked is what the crew makes of a knock of the fish: that it touched
// something while that is fresh, and that it is aground for as long as the cable
// jerks.
func (w *Watch) knocked() (says string, aground bool) {
	aground = w.view.Bridge.Touching
	if aground {
		says = "FISH AGROUND"
	}
	for _, a := range w.view.Bridge.Alarms {
		if a.What == passage.Knocked && w.view.Now-a.Time < knockStays {
			says = "FISH TOUCHED SOMETHING"
		}
	}
	return says, aground
}

func (w *Watch) locked() bool {
	n := len(w.history)
	return n > 0 && w.history[n-1].Locked
}

// readOut letters what is under the pointer.
func (w *Watch) readOut(dst *ebiten.Image, at image.Point, r image.Rectangle, l *look.Look) {
	p, slant, starboard, ok := w.echo(at)
	if !ok {
		return
	}
	f, _ := w.fallAt(at)
	text := firstFitting(w.readings(p, f.channel, slant, starboard), l, r.Dx()-l.Px(16))
	y := r.Max.Y - int(look.Tall(l.Small)) - l.Px(4)
	look.Fill(dst, image.Rect(r.Min.X, y-l.Px(2), r.Min.X+int(look.Wide(text, l.Small))+l.Px(14), r.Max.Y), look.Fade(l.Panel, 0.9))
	look.Write(dst, text, l.Small, float64(r.Min.X+l.Px(7)), float64(y), l.Ink, look.Left)
	x, yy := float64(at.X), float64(at.Y)
	arm := 10 * l.Scale
	for _, stroke := range []struct {
		wide float64
		ink  color.RGBA
	}{{3.5 * l.Scale, l.Panel}, {1.5 * l.Scale, l.Mark}} {
		look.Stroke(dst, x-arm, yy, x+arm, yy, stroke.wide, stroke.ink)
		look.Stroke(dst, x, yy-arm, x, yy+arm, stroke.wide, stroke.ink)
	}
	if w.drag.what == measuring {
		d := math.Hypot(w.drag.to[0]-w.drag.from[0], w.drag.to[1]-w.drag.from[1])
		look.Stroke(dst, float64(w.drag.x0), float64(w.drag.y0), x, yy, 2*l.Scale, l.Mark)
		figure(dst, at, r, fmt.Sprintf("%s %.1f m", w.measure, d), l)
	}
}

// figure letters a measure beside the pointer: above it and to the right, or to
// the left or below where the pane ends.
func figure(dst *ebiten.Image, at image.Point, r image.Rectangle, says string, l *look.Look) {
	wide, tall := int(look.Wide(says, l.Small))+l.Px(6), int(look.Tall(l.Small))
	left, top := at.X+l.Px(8), at.Y-l.Px(6)-tall
	if left+wide > r.Max.X {
		left = at.X - l.Px(8) - wide
	}
	if top < r.Min.Y {
		top = at.Y + l.Px(6)
	}
	look.Fill(dst, image.Rect(left, top, left+wide, top+tall), l.Panel)
	look.Write(dst, says, l.Small, float64(left+l.Px(3)), float64(top), l.Ink, look.Left)
}

// readings say what lies at a slant range of a ping, the fullest first.
func (w *Watch) readings(p *crew.Ping, channel int, slant float64, starboard bool) []string {
	side := "port"
	if starboard {
		side = "starboard"
	}
	full := fmt.Sprintf("%.1f m slant to %s", slant, side)
	ping := fmt.Sprintf(", ping %d", p.Number)
	switch {
	case echoless(p, channel):
		return []string{"no echo" + ping, "no echo"}
	case slant <= p.Height:
		return []string{full + ", in the water" + ping, full + ", in the water", fmt.Sprintf("%.1f m, in the water", slant), "in the water"}
	}
	ground := math.Sqrt(slant*slant - p.Height*p.Height)
	return []string{
		full + fmt.Sprintf(", %.1f m over the ground", ground) + ping,
		full + fmt.Sprintf(", %.1f m ground", ground) + ping,
		full + fmt.Sprintf(", %.1f m ground", ground),
		fmt.Sprintf("%.1f m slant, %.1f m ground", slant, ground),
		fmt.Sprintf("%.1f m slant", slant),
	}
}

// firstFitting is the first of some lines of small lettering that fits a width,
// or the last, cut.
func firstFitting(lines []string, l *look.Look, width int) string {
	for _, s := range lines {
		if look.Wide(s, l.Small) <= float64(width) {
			return s
		}
	}
	return fittedTo(lines[len(lines)-1], l, l.Small, width)
}
