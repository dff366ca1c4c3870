package app

import (
	"image"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/record"

	"github.com/hajimehoshi/ebiten/v2"
)

// waterfall is the pane of the waterfalls, one a channel: it has the pings that are
// shown and how they are shown.
type waterfall struct {
	*post
	pane       image.Rectangle // headings and all
	headHeight int             // of the headings, pixels
	stripWide  int             // of the strip of the whole session, pixels

	pictures []*panes.Waterfall // by channel
	history  []crew.Ping        // all there were, without their rows
	rows     *rowStore          // of all of them
	tones    tones              // of all of them
	spans    []logSpan          // rows logged
	bygone   bygone
	loupe    bool // what is under the pointer is shown larger
	channel  int  // shown, unless all are
	all      bool
	passed   map[int]*passes // by number of the contact

	looking    looking
	brightness float64 // added to the pictures, share of the ramp
	asRecorded bool    // they show the record as it came in, not levelled
}

// looking is which part of the waterfalls is shown.
type looking struct {
	scrolled float64 // rows back; 0 is live
	foot     bool    // the newest row is at the foot
	zoom     float64 // 1 for the whole swath
	across   float64 // bins that the middle lies from nadir, starboard positive

	panned  image.Point // where the pointer was when the picture was last moved
	panning bool
	pressed image.Point // and when and where the last click was
	since   int         // updates since it
}

const (
	mostZoom    = 8.0
	doubleClick = 24 // updates within which a second click is one of two
)

// newWaterfall returns the pane of an exercise's channels.
func newWaterfall(p *post) waterfall {
	file, err := record.OnDisk("")
	if err != nil {
		file = nil // a browser has no disk
	}
	w := waterfall{post: p, looking: looking{zoom: 1}, rows: newRowStore(len(p.brief.Sonar.Channels), file)}
	for range p.brief.Sonar.Channels {
		w.pictures = append(w.pictures, panes.NewWaterfall())
	}
	return w
}

// add puts a ping on top of the pictures.
func (w *waterfall) add(p *crew.Ping) {
	bottom := p.Height / max(p.RangeScale, 1)
	if !p.Locked {
		bottom = 0
	}
	for c, picture := range w.pictures {
		if c < len(p.Rows) {
			picture.Add(p.Rows[c], p.Plain[c], bottom)
		} else {
			picture.Add([2][]uint8{}, [2][]uint8{}, bottom)
		}
	}
	w.noteLog(p.Line, w.rows.rows)
	w.rows.add(p, bottom)
	w.tones.add(p)
	if w.looking.scrolled > 0 { // scrolled back, the picture stands still
		w.looking.scrolled++
	}
}

// last is the newest ping, nil if there is none.
func (w *waterfall) last() *crew.Ping {
	if len(w.history) == 0 {
		return nil
	}
	return &w.history[len(w.history)-1]
}

// locked reports whether the bottom is tracked.
func (w *waterfall) locked() bool {
	p := w.last()
	return p != nil && p.Locked
}

// release lets go of the pictures.
func (w *waterfall) release() {
	for _, p := range append(w.pictures, w.bygone.pictures...) {
		p.Deallocate()
	}
	w.tones.release()
	w.rows.close()
}

// nextChannel shows the next channel.
func (w *waterfall) nextChannel() { w.channel = (w.channel + 1) % len(w.pictures) }

// several reports more than one channel.
func (w *waterfall) several() bool { return len(w.pictures) > 1 }

// rect is where the rows of the waterfalls are drawn: below their headings, beside the strip of the whole
// session.
func (w *waterfall) rect() image.Rectangle {
	r := w.pane
	r.Min.Y += w.headHeight
	r.Max.X -= w.stripWide
	return r
}

// channelFall is one channel's waterfall as shown.
type channelFall struct {
	channel int
	r       image.Rectangle
}

// shown are the channels shown: the chosen one, or all beside each other.
func (w *waterfall) shown() []channelFall {
	r := w.rect()
	if !w.all {
		return []channelFall{{w.channel, r}}
	}
	n := len(w.pictures)
	var out []channelFall
	for c := range n {
		x0, x1 := r.Min.X+r.Dx()*c/n, r.Min.X+r.Dx()*(c+1)/n
		if c > 0 {
			x0 += 2
		}
		out = append(out, channelFall{c, image.Rect(x0, r.Min.Y, x1, r.Max.Y)})
	}
	return out
}

// under is the waterfall under a pixel.
func (w *waterfall) under(at image.Point) (channelFall, bool) {
	for _, f := range w.shown() {
		if at.In(f.r) {
			return f, true
		}
	}
	return channelFall{}, false
}

// part is the part of the waterfall that is shown.
func (w *waterfall) part(r image.Rectangle) panes.View { return w.looking.part(r, w.asRecorded) }

// part is the part of rows that is shown in a rectangle.
func (k *looking) part(r image.Rectangle, asRecorded bool) panes.View {
	v := panes.View{Newest: k.scrolled, PerBin: float64(r.Dx()) / (2 * panes.RowBins) * k.zoom, Plain: asRecorded, Foot: k.foot}
	v.PerRow = k.zoom * max(float64(r.Dx())/1000, 0.6)
	v.Left = panes.RowBins + k.across - float64(r.Dx())/2/v.PerBin
	return v
}

// keepInside keeps what is shown in a rectangle within the swath and so many rows: scrolled back to the oldest of
// them, those stay in it.
func (k *looking) keepInside(r image.Rectangle, rows int) {
	k.zoom = min(max(k.zoom, 1), mostZoom)
	most := panes.RowBins * (1 - 1/k.zoom)
	k.across = min(max(k.across, -most), most)
	k.scrolled = min(max(k.scrolled, 0), max(float64(rows)-float64(r.Dy())/k.part(r, false).PerRow, 0))
}

// zoomAbout changes the zoom about a pixel of a rectangle, across; it returns the row that is to stay at it.
func (k *looking) zoomAbout(factor float64, r image.Rectangle, at image.Point) (age, perRow float64) {
	x := float64(at.X - r.Min.X)
	v := k.part(r, false)
	bin, age := v.Left+x/v.PerBin, v.Age(r, float64(at.Y))
	k.zoom = min(max(k.zoom*factor, 1), mostZoom)
	v = k.part(r, false)
	k.across += bin - (v.Left + x/v.PerBin)
	return age, v.PerRow
}

// held is how many rows can be shown.
func (w *waterfall) held() int { return len(w.history) }

// keepInside keeps what is shown within the swath and the rows held: scrolled
// back to the oldest of them, the picture shows what is still held.
func (w *waterfall) keepInside(r image.Rectangle) {
	w.looking.keepInside(r, w.held())
	w.fetch()
}

// zoomAbout changes the zoom about a pixel. About one near the upper edge the
// picture stays live.
func (w *waterfall) zoomAbout(factor float64, at image.Point) {
	f, ok := w.under(at)
	if !ok {
		return
	}
	k := &w.looking
	y := float64(at.Y - f.r.Min.Y) // from the newest row
	if k.foot {
		y = float64(f.r.Max.Y - at.Y)
	}
	age, perRow := k.zoomAbout(factor, f.r, at)
	if k.scrolled > 0 || y > float64(f.r.Dy())/8 {
		k.scrolled = age - y/perRow
	}
	w.keepInside(f.r)
}

// wholeSwath shows the swath whole, still at the same rows.
func (w *waterfall) wholeSwath() {
	w.looking.zoom, w.looking.across = 1, 0
	w.keepInside(w.rect())
}

// live goes back to the newest rows.
func (w *waterfall) live() { w.looking.scrolled = 0 }

// scroll goes back by so many rows.
func (w *waterfall) scroll(rows float64) {
	w.looking.scrolled += rows
	w.keepInside(w.rect())
}

// pan moves the picture while the middle or the right button is down.
func (w *waterfall) pan(at image.Point, taken bool) {
	k := &w.looking
	f, on := w.under(at)
	switch {
	case (wentDown(ebiten.MouseButtonMiddle) || wentDown(ebiten.MouseButtonRight)) && on && !taken:
		k.panning, k.panned = true, at
	case !held(ebiten.MouseButtonMiddle) && !held(ebiten.MouseButtonRight):
		k.panning = false
	case k.panning:
		by := at.Sub(k.panned)
		k.panned = at
		if !on {
			f = channelFall{w.channel, w.rect()}
		}
		v := w.part(f.r)
		k.across -= float64(by.X) / v.PerBin
		k.scrolled += v.Age(f.r, 0) - v.Age(f.r, float64(by.Y))
		w.keepInside(f.r)
	}
}

// click shows the whole swath at a double click.
func (w *waterfall) click(at image.Point, taken, marking bool) {
	k := &w.looking
	k.since++
	if !wentDown(ebiten.MouseButtonLeft) || taken {
		return
	}
	_, on := w.under(at)
	if near := at.Sub(k.pressed); on && k.since < doubleClick && near.X*near.X+near.Y*near.Y < 50 && !marking {
		w.wholeSwath()
	}
	k.since, k.pressed = 0, at
}
