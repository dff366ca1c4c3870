package app

import (
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/product"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"
)

// looking is which part of the waterfalls is shown.
type looking struct {
	back   float64 // rows scrolled back; 0 is live
	zoom   float64 // 1 for the whole swath
	across float64 // bins that the middle lies from nadir, starboard positive

	panned  image.Point // where the pointer was when the picture was last moved
	panning bool
	pressed image.Point // and when and where the last click was
	since   int         // updates since it
}

const (
	mostZoom    = 8.0
	doubleClick = 24 // updates within which a second click is one of two
)

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
	k := &w.looking
	v := panes.View{Newest: k.back, PerBin: float64(r.Dx()) / (2 * panes.RowBins) * k.zoom, Plain: w.asRecorded}
	v.PerRow = k.zoom * max(float64(r.Dx())/1000, 0.6)
	v.Left = panes.RowBins + k.across - float64(r.Dx())/2/v.PerBin
	return v
}

// held is how many rows can be shown.
func (w *Watch) held() int { return min(len(w.history), panes.RingRows) }

// keepInside keeps what is shown within the swath and the rows held: scrolled
// back to the oldest of them, the picture goes on with what is still held.
func (w *Watch) keepInside(r image.Rectangle) {
	k := &w.looking
	k.zoom = min(max(k.zoom, 1), mostZoom)
	most := panes.RowBins * (1 - 1/k.zoom)
	k.across = min(max(k.across, -most), most)
	rows := float64(r.Dy()) / w.fallView(r).PerRow
	k.back = min(max(k.back, 0), max(float64(w.held())-rows, 0))
}

// zoomFall changes the zoom about a pixel. About one near the upper edge the
// picture stays live.
func (w *Watch) zoomFall(factor float64, at image.Point) {
	f, ok := w.fallAt(at)
	if !ok {
		return
	}
	k := &w.looking
	x, y := float64(at.X-f.r.Min.X), float64(at.Y-f.r.Min.Y)
	v := w.fallView(f.r)
	bin, age := v.Left+x/v.PerBin, v.Newest+y/v.PerRow
	k.zoom = min(max(k.zoom*factor, 1), mostZoom)
	v = w.fallView(f.r)
	k.across += bin - (v.Left + x/v.PerBin)
	if k.back > 0 || y > float64(f.r.Dy())/8 {
		k.back = age - y/v.PerRow
	}
	w.keepInside(f.r)
}

// wholeSwath shows the swath whole, still at the same rows.
func (w *Watch) wholeSwath() {
	w.looking.zoom, w.looking.across = 1, 0
	w.keepInside(w.fallRect())
}

// live goes back to the newest rows.
func (w *Watch) live() { w.looking.back = 0 }

// scrollFall goes back by so many rows.
func (w *Watch) scrollFall(rows float64) {
	w.looking.back += rows
	w.keepInside(w.fallRect())
}

// panFall moves the picture while the middle or the right button is down, and
// tells a double click.
func (w *Watch) panFall(at image.Point, taken bool) {
	k := &w.looking
	k.since++
	down := ebiten.IsMouseButtonPressed(ebiten.MouseButtonMiddle) || ebiten.IsMouseButtonPressed(ebiten.MouseButtonRight)
	began := inpututil.IsMouseButtonJustPressed(ebiten.MouseButtonMiddle) || inpututil.IsMouseButtonJustPressed(ebiten.MouseButtonRight)
	f, on := w.fallAt(at)
	switch {
	case began && on && !taken:
		k.panning, k.panned = true, at
	case !down:
		k.panning = false
	case k.panning:
		by := at.Sub(k.panned)
		k.panned = at
		if !on {
			f = fall{w.channel, w.fallRect()}
		}
		v := w.fallView(f.r)
		k.across -= float64(by.X) / v.PerBin
		k.back -= float64(by.Y) / v.PerRow
		w.keepInside(f.r)
	}
	if inpututil.IsMouseButtonJustPressed(ebiten.MouseButtonLeft) && !taken {
		near := at.Sub(k.pressed)
		if on && k.since < doubleClick && near.X*near.X+near.Y*near.Y < 50 && !w.marking {
			w.wholeSwath()
		}
		k.since, k.pressed = 0, at
	}
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
		title = fittedTo(title+w.howFarBack()+w.toneSays(g, f.channel), l, l.Small, r.Dx()-l.Px(12))
		look.Write(dst, title, l.Small, float64(r.Min.X+l.Px(8)), float64(head.Min.Y+l.Px(4)), l.Ink, look.Left)
		var labels panes.Labels // what finds no room beside what matters more goes unlettered
		labels.Keep(w.liveRect(l))
		w.rangeMarks(pane, r, v, l, &labels)
		w.contactMarks(pane, r, v, l, &labels)
		w.lineMarks(pane, r, v, l, &labels)
		w.wayMarks(pane, r, v, l, &labels)
		w.silence(pane, r, v, f.channel, l, &labels)
		if at := image.Pt(x, y); at.In(r) && !taken && !at.In(w.liveRect(l)) {
			w.readOut(pane, at, r, l)
		}
	}
	w.drawLive(dst, l)
}

const backToLive = "back to live, End"

// liveRect is where a click goes back to the newest rows; empty if they are
// shown.
func (w *Watch) liveRect(l *look.Look) image.Rectangle {
	if w.looking.back == 0 {
		return image.Rectangle{}
	}
	r := w.fallRect()
	top := r.Min.Y + int(look.Tall(l.Small)) + l.Px(6)
	wide, tall := int(look.Wide(backToLive, l.Small))+l.Px(16), int(look.Tall(l.Small))+l.Px(8)
	x := (r.Min.X + r.Max.X) / 2
	return image.Rect(x-wide/2, top, x-wide/2+wide, top+tall)
}

func (w *Watch) drawLive(dst *ebiten.Image, l *look.Look) {
	r := w.liveRect(l)
	if r.Empty() {
		return
	}
	look.Fill(dst, r, l.Accent)
	look.Write(dst, backToLive, l.Small, float64(r.Min.X+l.Px(8)), float64(r.Min.Y+l.Px(4)), l.OnIt, look.Left)
}

// howFarBack letters how long ago and how far astern the upper row was heard.
func (w *Watch) howFarBack() string {
	last := len(w.history) - 1
	n := last - int(w.looking.back)
	if w.looking.back == 0 || n < 0 {
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
