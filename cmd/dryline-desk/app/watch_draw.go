package app

import (
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim"
	"dryline/sim/product"

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
	w.topHint(g, dst)
	if w.view.Back < 1 {
		w.goingBack(g, dst)
	}
}

// goingBack shows how far a resumed session has been brought back.
func (w *Watch) goingBack(g *Game, dst *ebiten.Image) {
	l := g.Look
	look.Fill(dst, g.size, look.Fade(l.Desk, 0.7))
	x, y := float64(g.size.Dx())/2, float64(g.size.Dy())/2
	look.Write(dst, "Going back to where the session was left", l.Body, x, y-float64(l.Px(34)), l.Ink, look.Middle)
	bar := image.Rect(int(x)-l.Px(160), int(y), int(x)+l.Px(160), int(y)+l.Px(12))
	look.Fill(dst, bar, l.Sunk)
	done := bar
	done.Max.X = bar.Min.X + int(w.view.Back*float64(bar.Dx()))
	look.Fill(dst, done, l.Accent)
}

func (w *Watch) shade(g *Game) panes.Shade {
	return panes.Shade{Ramp: rampNamed(g.Settings.Ramp), Contrast: g.Settings.Contrast}
}

// sideView is what the view from the side shows.
func (w *Watch) sideView() *panes.Side {
	v := w.view
	spec, r := &w.exercise.Vessel, &v.Reading
	scale := v.Recorder.RangeScale
	low, high := w.exercise.Score.AltitudeMin, w.exercise.Score.AltitudeMax
	if high <= 0 {
		low, high = 0.08, 0.2
	}
	s := &panes.Side{
		Bow: spec.Length / 2, Stern: -spec.Length / 2, Draft: spec.Draft,
		SheaveAft: -spec.Sheave.Forward, SheaveUp: spec.Sheave.Up, Heave: r.Heave, Pitch: r.Pitch,
		CableOut: r.CableOut, FishAft: v.Fix.Layback - spec.Antenna.Forward, FishDepth: r.FishDepth, FishPitch: r.FishPitch,
		Height: v.Height, Locked: w.locked(), Layback: v.Fix.Layback - v.Settings.AntennaToTow,
		BandLow: low * scale, BandHigh: high * scale, RangeScale: scale,
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

// knocked is what the crew makes of the last knock of the fish: that it touched
// something while that is fresh, and that it is aground if no bottom has been
// heard since.
func (w *Watch) knocked() (says string, aground bool) {
	alarms := w.view.Bridge.Alarms
	for i := len(alarms) - 1; i >= 0; i-- {
		a := &alarms[i]
		if a.What != sim.Knocked {
			continue
		}
		fresh := w.view.Now-a.Time < knockStays
		switch {
		case w.heardAt <= a.Time && !fresh:
			return "FISH AGROUND", true
		case fresh:
			return "FISH TOUCHED SOMETHING", w.heardAt <= a.Time
		}
		break
	}
	return "", false
}

func (w *Watch) locked() bool {
	n := len(w.history)
	return n > 0 && w.history[n-1].Locked
}

// fallRect is where the rows of the waterfalls are drawn: below their headings.
func (w *Watch) fallRect() image.Rectangle {
	r := w.at.fall
	r.Min.Y += w.headTall()
	return r
}

// fall is one channel's waterfall as shown.
type fall struct {
	channel int
	r       image.Rectangle
}

// shownFalls are the channels shown: the chosen one, or all beside each other.
func (w *Watch) shownFalls() []fall {
	r := w.fallRect()
	if !w.allChannels {
		return []fall{{w.channel, r}}
	}
	n := len(w.falls)
	var out []fall
	for c := range n {
		x0, x1 := r.Min.X+r.Dx()*c/n, r.Min.X+r.Dx()*(c+1)/n
		if c > 0 {
			x0 += 2
		}
		out = append(out, fall{c, image.Rect(x0, r.Min.Y, x1, r.Max.Y)})
	}
	return out
}

// fallAt is the waterfall under a pixel.
func (w *Watch) fallAt(at image.Point) (fall, bool) {
	for _, f := range w.shownFalls() {
		if at.In(f.r) {
			return f, true
		}
	}
	return fall{}, false
}

func (w *Watch) headTall() int { return int(w.top.headTall) }

// fallView is the part of the waterfall that is shown.
func (w *Watch) fallView(r image.Rectangle) panes.View {
	v := panes.View{Newest: w.fallBack, PerBin: float64(r.Dx()) / (2 * panes.RowBins) * w.fallZoom}
	v.PerRow = max(w.fallZoom, 1) * max(float64(r.Dx())/1000, 0.6)
	v.Left = panes.RowBins - float64(r.Dx())/2/v.PerBin
	return v
}

func (w *Watch) drawFall(g *Game, dst *ebiten.Image) {
	l := g.Look
	head := image.Rect(w.at.fall.Min.X, w.at.fall.Min.Y, w.at.fall.Max.X, w.at.fall.Min.Y+w.headTall())
	look.Fill(dst, head, l.Panel)
	x, y, taken := g.Pointer()
	for _, f := range w.shownFalls() {
		r, v := f.r, w.fallView(f.r)
		v.Colours.Void, v.Colours.Bottom = l.Void, l.Mark
		w.falls[f.channel].Draw(dst, r, v, w.shade(g))
		pane := dst.SubImage(r).(*ebiten.Image)
		title := product.ChannelLabel(w.exercise.Sonar.Channels[f.channel])
		if w.fallBack > 0 {
			title += fmt.Sprintf(", %d rows back", int(w.fallBack))
		}
		title = fittedTo(title, l, l.Small, r.Dx()-l.Px(12))
		look.Write(dst, title, l.Small, float64(r.Min.X+l.Px(8)), float64(head.Min.Y+l.Px(4)), l.Ink, look.Left)
		w.rangeMarks(pane, r, v, l)
		w.silence(pane, r, v, f.channel, l)
		w.lineMarks(pane, r, v, l)
		w.contactMarks(pane, r, v, l)
		if at := image.Pt(x, y); at.In(r) && !taken {
			w.readOut(pane, at, r, l)
		}
	}
}

// rangeMarks rules the range in steps that suit the scale.
func (w *Watch) rangeMarks(dst *ebiten.Image, r image.Rectangle, v panes.View, l *look.Look) {
	scale := w.view.Recorder.RangeScale
	perM := v.PerBin * panes.RowBins / scale
	step := 5.0
	for _, s := range []float64{1, 2, 5, 10, 20, 25, 50} {
		if step = s; s*perM > 58*l.Scale {
			break
		}
	}
	middle := float64(r.Min.X) + (panes.RowBins-v.Left)*v.PerBin
	look.Stroke(dst, middle, float64(r.Min.Y), middle, float64(r.Max.Y), l.Scale, look.Fade(l.Rule, 0.5))
	for m := step; m <= scale*1.001; m += step {
		for _, side := range []float64{-1, 1} {
			x := middle + side*m*perM
			if x < float64(r.Min.X) || x > float64(r.Max.X) {
				continue
			}
			look.Stroke(dst, x, float64(r.Min.Y), x, float64(r.Max.Y), l.Scale, look.Fade(l.Rule, 0.35))
			label := fmt.Sprintf("%g", m)
			if m+step > scale*1.001 {
				label += " m"
			}
			wide := look.Wide(label, l.Small)
			lx := min(max(x-wide/2, float64(r.Min.X)+2), float64(r.Max.X)-wide-2)
			look.Fill(dst, image.Rect(int(lx)-2, r.Min.Y, int(lx+wide)+2, r.Min.Y+int(look.Tall(l.Small))), look.Fade(l.Panel, 0.75))
			look.Write(dst, label, l.Small, lx, float64(r.Min.Y), l.Ink, look.Left)
		}
	}
}

// readOut letters what is under the pointer.
func (w *Watch) readOut(dst *ebiten.Image, at image.Point, r image.Rectangle, l *look.Look) {
	p, slant, starboard, ok := w.echo(at)
	if !ok {
		return
	}
	side := "port"
	if starboard {
		side = "starboard"
	}
	text := fmt.Sprintf("%.1f m slant to %s", slant, side)
	if slant > p.Height {
		text += fmt.Sprintf(", %.1f m over the ground", math.Sqrt(slant*slant-p.Height*p.Height))
	} else {
		text += ", in the water"
	}
	text = fittedTo(text+fmt.Sprintf(", ping %d", p.Number), l, l.Small, r.Dx()-l.Px(16))
	y := r.Max.Y - int(look.Tall(l.Small)) - l.Px(4)
	look.Fill(dst, image.Rect(r.Min.X, y-l.Px(2), r.Min.X+int(look.Wide(text, l.Small))+l.Px(14), r.Max.Y), look.Fade(l.Panel, 0.9))
	look.Write(dst, text, l.Small, float64(r.Min.X+l.Px(7)), float64(y), l.Ink, look.Left)
	x, yy := float64(at.X), float64(at.Y)
	arm := 10 * l.Scale
	look.Stroke(dst, x-arm, yy, x+arm, yy, l.Scale, l.Mark)
	look.Stroke(dst, x, yy-arm, x, yy+arm, l.Scale, l.Mark)
	if w.drag.what == measuring {
		d := math.Hypot(w.drag.to[0]-w.drag.from[0], w.drag.to[1]-w.drag.from[1])
		look.Stroke(dst, float64(w.drag.x0), float64(w.drag.y0), x, yy, 2*l.Scale, l.Mark)
		label := fmt.Sprintf("%s %.1f m", w.measure, d)
		look.Fill(dst, image.Rect(at.X+l.Px(8), at.Y-l.Px(22), at.X+l.Px(14)+int(look.Wide(label, l.Small)), at.Y-l.Px(4)), l.Panel)
		look.Write(dst, label, l.Small, x+11*l.Scale, yy-21*l.Scale, l.Ink, look.Left)
	}
}
