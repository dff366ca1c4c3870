package app

import (
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"

	"github.com/hajimehoshi/ebiten/v2"
)

// lineMarks rules where a line begins and ends and where the range scale was
// changed, and says so.
func (w *Watch) lineMarks(dst *ebiten.Image, r image.Rectangle, v panes.View, l *look.Look) {
	rows := int(float64(r.Dy())/v.PerRow) + 1
	last := len(w.history) - 1
	for age := int(v.Newest); age < int(v.Newest)+rows; age++ {
		n := last - age
		if n < 1 || age >= panes.RingRows {
			return
		}
		a, b := w.history[n-1].Line, w.history[n].Line
		scaled := w.history[n-1].RangeScale != w.history[n].RangeScale
		if a == b && !scaled {
			continue
		}
		y := float64(r.Min.Y) + (float64(age+1)-v.Newest)*v.PerRow
		look.Dashed(dst, float64(r.Min.X), y, float64(r.Max.X), y, 1.5*l.Scale, 8*l.Scale, l.Accent)
		label := "log on: " + b
		switch {
		case scaled:
			label = fmt.Sprintf("range scale %.0f m below, %.0f m above", w.history[n-1].RangeScale, w.history[n].RangeScale)
		case b == "":
			label = "log off: " + a
		}
		look.Fill(dst, image.Rect(r.Min.X, int(y), r.Min.X+int(look.Wide(label, l.Small))+l.Px(10), int(y+look.Tall(l.Small))), look.Fade(l.Panel, 0.85))
		look.Write(dst, label, l.Small, float64(r.Min.X+l.Px(5)), y, l.Ink, look.Left)
	}
}

// silence letters the runs of pings in which nothing was heard.
func (w *Watch) silence(dst *ebiten.Image, r image.Rectangle, v panes.View, channel int, l *look.Look) {
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
		y0, y1 := float64(r.Min.Y)+(float64(age)-v.Newest)*v.PerRow, float64(r.Min.Y)+(float64(run)-v.Newest)*v.PerRow
		y0, y1 = max(y0, float64(r.Min.Y)+tall+4*l.Scale), min(y1, float64(r.Max.Y)) // below the range marks
		if y1-y0 > tall+2*l.Scale && wide+8*l.Scale < float64(r.Dx()) {
			x, y := float64(r.Min.X+r.Max.X)/2, (y0+y1-tall)/2
			look.Fill(dst, image.Rect(int(x-wide/2-3*l.Scale), int(y), int(x+wide/2+3*l.Scale), int(y+tall)), look.Fade(l.Panel, 0.85))
			look.Write(dst, says, l.Small, x, y, l.Ink, look.Middle)
		}
		age = max(run, age+1)
	}
}

// echoless reports a ping without an echo in a channel.
func echoless(p *crew.Ping, channel int) bool {
	if channel >= len(p.Rows) {
		return true
	}
	for _, side := range p.Rows[channel] {
		for _, v := range side {
			if v > 0 {
				return false
			}
		}
	}
	return true
}

// contactMarks rings the contacts marked in the pings shown.
func (w *Watch) contactMarks(dst *ebiten.Image, r image.Rectangle, v panes.View, l *look.Look) {
	if len(w.history) == 0 {
		return
	}
	first := w.history[0].Number
	for _, c := range w.view.Contacts {
		if c.Ping < first || c.Range == 0 { // not seen in a ping, or long ago
			continue
		}
		n := int(c.Ping - first)
		if n >= len(w.history) || w.history[n].Number != c.Ping {
			continue
		}
		p := &w.history[n]
		slant := math.Hypot(c.Range, p.Height)
		share := slant / p.RangeScale
		if c.Side == "port" {
			share = -share
		}
		age := float64(len(w.history)-1-n) + 0.5
		if age > panes.RingRows {
			continue // its row is gone
		}
		x := float64(r.Min.X) + ((1+share)*panes.RowBins-v.Left)*v.PerBin
		y := float64(r.Min.Y) + (age-v.Newest)*v.PerRow
		radius := 9 * l.Scale
		look.Ring(dst, x, y, radius, 2.5*l.Scale, l.Panel)
		look.Ring(dst, x, y, radius, 1.6*l.Scale, l.Mark)
		// The name stands on the near side: the shadow falls on the other.
		name := contactName(c)
		beside := x - radius - 3*l.Scale - look.Wide(name, l.Small)
		if c.Side == "port" {
			beside = x + radius + 3*l.Scale
		}
		tall := look.Tall(l.Small)
		look.Fill(dst, image.Rect(int(beside-2*l.Scale), int(y-tall/2), int(beside+look.Wide(name, l.Small)+2*l.Scale), int(y+tall/2)), look.Fade(l.Panel, 0.85))
		look.Write(dst, name, l.Small, beside, y-tall/2, l.Mark, look.Left)
	}
}
