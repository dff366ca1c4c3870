package app

import (
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/product"

	"github.com/hajimehoshi/ebiten/v2"
)

// ruler is a measure being taken: from where on the screen, and what it comes to.
type ruler struct {
	from image.Point
	says string
}

// draw draws the waterfalls, with a measure if one is being taken.
func (w *waterfall) draw(g *Game, dst *ebiten.Image, measure *ruler) {
	l := g.Look
	head := image.Rect(w.pane.Min.X, w.pane.Min.Y, w.pane.Max.X, w.pane.Min.Y+w.headHeight)
	look.Fill(dst, head, l.Panel)
	x, y, taken := g.Pointer()
	for _, f := range w.shown() {
		r, v := f.r, w.part(f.r)
		v.Colours.Void, v.Colours.Bottom, v.Colours.CutOff = l.Void, l.Mark, l.Alarm
		w.picture(dst, r, f.channel, v, g.shade(w.brightness))
		pane := dst.SubImage(r).(*ebiten.Image)
		title := product.ChannelLabel(w.brief.Sonar.Channels[f.channel])
		title = look.Fitted(title+w.howFarBack()+w.pictureSays(g, f.channel), l.Small, r.Dx()-l.Px(12))
		look.Write(dst, title, l.Small, float64(r.Min.X+l.Px(8)), float64(head.Min.Y+l.Px(4)), l.Ink, look.Left)
		var labels panes.Labels // what finds no room beside what matters more goes unlettered
		labels.Keep(w.liveRect(l))
		w.rangeMarks(pane, r, v, l, &labels)
		w.contactMarks(pane, r, v, l, &labels)
		w.lineMarks(pane, r, v, l, &labels)
		w.wayMarks(pane, r, v, l, &labels)
		w.silence(pane, r, v, f.channel, l, &labels)
		if at := image.Pt(x, y); at.In(r) && !taken && !at.In(w.liveRect(l)) {
			w.readOut(pane, at, r, l, measure)
		}
	}
	w.drawLive(dst, l)
	w.drawStrip(dst, l)
	if at := image.Pt(x, y); w.loupe && !taken {
		w.drawLoupe(g, dst, at)
	}
}

const backToLive = "back to live, End"

// liveRect is where a click goes back to the newest rows; empty if they are
// shown.
func (w *waterfall) liveRect(l *look.Look) image.Rectangle {
	if w.looking.scrolled == 0 {
		return image.Rectangle{}
	}
	r := w.rect()
	top := r.Min.Y + int(look.Tall(l.Small)) + l.Px(6)
	wide, tall := int(look.Wide(backToLive, l.Small))+l.Px(16), int(look.Tall(l.Small))+l.Px(8)
	x := (r.Min.X + r.Max.X) / 2
	return image.Rect(x-wide/2, top, x-wide/2+wide, top+tall)
}

func (w *waterfall) drawLive(dst *ebiten.Image, l *look.Look) {
	r := w.liveRect(l)
	if r.Empty() {
		return
	}
	look.Fill(dst, r, l.Accent)
	look.Write(dst, backToLive, l.Small, float64(r.Min.X+l.Px(8)), float64(r.Min.Y+l.Px(4)), l.OnIt, look.Left)
}

// howFarBack letters how long ago and how far astern the upper row was heard.
func (w *waterfall) howFarBack() string {
	last := len(w.history) - 1
	n := last - int(w.looking.scrolled)
	if w.looking.scrolled == 0 || n < 0 {
		return ""
	}
	return fmt.Sprintf(", %.0f s and %.0f m back", w.history[last].Fix.Time-w.history[n].Fix.Time, run(w.history[n:]))
}

// run is the way the fish made good over pings, metres: by speed and time, for
// places jump about.
func run(pings []crew.Ping) float64 {
	sum := 0.0
	for i := 1; i < len(pings); i++ {
		a, b := &pings[i-1].Fix, &pings[i].Fix
		sum += (a.Speed + b.Speed) / 2 * (b.Time - a.Time)
	}
	return sum
}
