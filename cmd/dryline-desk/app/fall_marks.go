package app

import (
	"fmt"
	"image"
	"math"
	"slices"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// lineMarks rules where a line begins and ends and where the range scale was
// changed, and says so.
func (w *waterfall) lineMarks(dst *ebiten.Image, r image.Rectangle, v panes.View, l *look.Look, labels *panes.Labels) {
	rows := int(float64(r.Dy())/v.PerRow) + 1
	last := len(w.history) - 1
	for age := int(v.Newest); age < int(v.Newest)+rows; age++ {
		n := last - age
		if n < 1 {
			return
		}
		a, b := w.history[n-1].Line, w.history[n].Line
		scaled := w.history[n-1].RangeScale != w.history[n].RangeScale
		if a == b && !scaled {
			continue
		}
		y := v.Y(r, float64(age+1))
		look.Dashed(dst, float64(r.Min.X), y, float64(r.Max.X), y, 1.5*l.Scale, 8*l.Scale, l.Accent)
		label := "log on: " + b
		switch {
		case scaled:
			label = fmt.Sprintf("range scale %.0f m below, %.0f m above", w.history[n-1].RangeScale, w.history[n].RangeScale)
		case b == "":
			label = "log off: " + a
		}
		tall := int(look.Tall(l.Small))
		left := r.Min.X + l.Px(14) // clear of the bar along the track
		ground := image.Rect(left, int(y), left+int(look.Wide(label, l.Small))+l.Px(10), int(y)+tall)
		for _, by := range []int{0, -1, 1, -2, 2} { // under its rule, or as near as there is room
			if at := ground.Add(image.Pt(0, by*tall)); at.In(r) && labels.Try(at) {
				look.Fill(dst, at, look.Fade(l.Panel, onRecord))
				look.Write(dst, label, l.Small, float64(at.Min.X+l.Px(5)), float64(at.Min.Y), l.Ink, look.Left)
				break
			}
		}
	}
}

// silence letters the runs of pings in which nothing was heard.
func (w *waterfall) silence(dst *ebiten.Image, r image.Rectangle, v panes.View, channel int, l *look.Look, labels *panes.Labels) {
	const says = "no echo"
	wide, tall := look.Wide(says, l.Small), look.Tall(l.Small)
	last := len(w.history) - 1
	from := int(v.Newest)
	end := min(from+int(float64(r.Dy())/v.PerRow)+1, w.held())
	for age := from; age < end; {
		run := age
		for run < end && echoless(&w.history[last-run], channel) {
			run++
		}
		y0, y1 := inOrder(v.Y(r, float64(age)), v.Y(r, float64(run)))
		y0, y1 = max(y0, float64(r.Min.Y)+tall+4*l.Scale), min(y1, float64(r.Max.Y)) // below the range marks
		if y1-y0 > tall+2*l.Scale && wide+8*l.Scale < float64(r.Dx()) {
			x, y := float64(r.Min.X+r.Max.X)/2, (y0+y1-tall)/2
			if ground := image.Rect(int(x-wide/2-3*l.Scale), int(y), int(x+wide/2+3*l.Scale), int(y+tall)); labels.Try(ground) {
				look.Fill(dst, ground, look.Fade(l.Panel, onRecord))
				look.Write(dst, says, l.Small, x, y, l.Ink, look.Middle)
			}
		}
		age = max(run, age+1)
	}
}

// echoless reports a ping without an echo in a channel.
func echoless(p *crew.Ping, channel int) bool { return channel >= len(p.Echo) || !p.Echo[channel] }

// inOrder are two pixels, the upper one first.
func inOrder(a, b float64) (upper, lower float64) { return min(a, b), max(a, b) }

// contactMarks brackets the contacts in the pings they were marked in, and thinly
// where their places fall in others.
func (w *waterfall) contactMarks(dst *ebiten.Image, r image.Rectangle, v panes.View, l *look.Look, labels *panes.Labels) {
	for i := range w.view.Contacts {
		c := &w.view.Contacts[i]
		if at, ok := w.sighting(c); ok {
			w.bracket(dst, r, v, l, labels, c, at, 1.6)
		}
		for _, at := range w.passesOf(c) {
			if at.ping+passApart < c.Ping || at.ping > c.Ping+passApart || c.Range == 0 {
				w.bracket(dst, r, v, l, labels, c, at, 0.9)
			}
		}
	}
}

// bracketOf is where a contact is bracketed in a ping, pixels.
func (w *waterfall) bracketOf(r image.Rectangle, v panes.View, c *survey.Contact, at crossing, l *look.Look) (x, y, radius float64, ok bool) {
	bin, age, ok := w.spotOf(at)
	if !ok {
		return 0, 0, 0, false
	}
	p, _ := w.pinged(at.ping)
	return float64(r.Min.X) + (bin-v.Left)*v.PerBin, v.Y(r, age), bracketRadius(c, v.PerBin*panes.RowBins/p.RangeScale, l), true
}

// contactAt is the number of the contact whose bracket a pixel lies in, 0 if it is none's.
func (w *waterfall) contactAt(at image.Point, l *look.Look) int {
	f, ok := w.under(at)
	if !ok {
		return 0
	}
	for i := range w.view.Contacts {
		c := &w.view.Contacts[i]
		all := w.passesOf(c)
		if seen, ok := w.sighting(c); ok {
			all = append(slices.Clip(all), seen)
		}
		for _, seen := range all {
			if x, y, radius, ok := w.bracketOf(f.r, w.part(f.r), c, seen, l); ok && math.Hypot(x-float64(at.X), y-float64(at.Y)) < radius {
				return c.Number
			}
		}
	}
	return 0
}

// bracket brackets a contact in a ping by a stroke so wide, and names it.
func (w *waterfall) bracket(dst *ebiten.Image, r image.Rectangle, v panes.View, l *look.Look, labels *panes.Labels, c *survey.Contact, at crossing, stroke float64) {
	x, y, radius, ok := w.bracketOf(r, v, c, at, l)
	if !ok || !image.Pt(int(x), int(y)).In(r.Inset(-l.Px(40))) {
		return
	}
	bracket(dst, x, y, radius, stroke*l.Scale, l)
	// The name stands on the near side: the shadow falls on the other.
	name := contactName(*c)
	beside := x - radius - 3*l.Scale - look.Wide(name, l.Small)
	if !at.starboard {
		beside = x + radius + 3*l.Scale
	}
	tall := look.Tall(l.Small)
	ground := image.Rect(int(beside-2*l.Scale), int(y-tall/2), int(beside+look.Wide(name, l.Small)+2*l.Scale), int(y+tall/2))
	if ground.In(r) && labels.Try(ground) {
		look.Fill(dst, ground, look.Fade(l.Panel, onRecord))
		look.Write(dst, name, l.Small, beside, float64(ground.Min.Y), l.Mark, look.Left)
	}
}
