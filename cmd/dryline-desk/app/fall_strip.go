package app

import (
	"image"
	"math"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// tones are how bright every row of the session is to either side: a picture of it all, two pixels wide.
type tones struct {
	rows    [][2]uint8
	picture *ebiten.Image
	drawn   int // rows in the picture
}

func (t *tones) add(p *crew.Ping) {
	var row [2]uint8
	if len(p.Rows) > 0 {
		for side, values := range p.Rows[0] {
			sum := 0
			for _, v := range values {
				sum += int(v)
			}
			if len(values) > 0 {
				row[side] = uint8(sum / len(values))
			}
		}
	}
	t.rows = append(t.rows, row)
}

func (t *tones) release() {
	if t.picture != nil {
		t.picture.Deallocate()
		t.picture = nil
	}
}

// paint brings the picture up to date: newest at the top, as tall as the strip. It is made anew when as
// much has come as moves it by a pixel.
func (t *tones) paint(tall int, l *look.Look) *ebiten.Image {
	n := len(t.rows)
	if n == 0 || tall < 2 {
		return nil
	}
	if t.picture != nil && t.picture.Bounds().Dy() == tall && n-t.drawn <= n/tall {
		return t.picture
	}
	if t.picture == nil || t.picture.Bounds().Dy() != tall {
		t.release()
		t.picture = ebiten.NewImage(2, tall)
	}
	pixels := make([]byte, 4*2*tall)
	for y := range tall {
		from, to := n*y/tall, max(n*(y+1)/tall, n*y/tall+1)
		for side := range 2 {
			sum := 0
			for age := from; age < to && age < n; age++ {
				sum += int(t.rows[n-1-age][side])
			}
			v := byte(min(sum/(to-from)*3/2, 255))
			at := 4 * (2*y + side)
			pixels[at], pixels[at+1], pixels[at+2], pixels[at+3] = v, v, v, 0xff
		}
	}
	t.picture.WritePixels(pixels)
	t.drawn = n
	return t.picture
}

// stripPoints is how wide the strip of the whole session is, points.
const stripPoints = 18

// lay gives the waterfalls their pane.
func (w *waterfall) lay(pane image.Rectangle, l *look.Look) {
	w.pane, w.headHeight, w.stripWide = pane, int(look.Tall(l.Small))+l.Px(8), l.Px(stripPoints)
}

// stripRect is where the strip lies: at the right of the rows.
func (w *waterfall) stripRect() image.Rectangle {
	r := w.pane
	r.Min.Y += w.headHeight
	r.Min.X = r.Max.X - w.stripWide
	return r
}

// stripY is the pixel of an age in the strip, which shows all rows, or as many as the pane if there are
// fewer.
func (w *waterfall) stripY(age float64) float64 {
	r := w.stripRect()
	down := age / w.stripRows() * float64(r.Dy())
	if w.looking.foot {
		return float64(r.Max.Y) - down
	}
	return float64(r.Min.Y) + down
}

func (w *waterfall) stripRows() float64 {
	return max(float64(len(w.history)), float64(w.rect().Dy())/w.part(w.shown()[0].r).PerRow, 1)
}

// goTo shows the rows about a pixel of the strip.
func (w *waterfall) goTo(y int) {
	r := w.stripRect()
	age := float64(y-r.Min.Y) / float64(r.Dy()) * w.stripRows()
	if w.looking.foot {
		age = w.stripRows() - age
	}
	rows := float64(w.rect().Dy()) / w.part(w.shown()[0].r).PerRow
	w.looking.scrolled = age - rows/2
	w.keepInside(w.rect())
}

// drawStrip draws the whole session beside the rows: how bright it is, what was logged, contacts, what went
// wrong, and which part is shown.
func (w *waterfall) drawStrip(dst *ebiten.Image, l *look.Look) {
	r := w.stripRect()
	look.Fill(dst, r, l.Sunk)
	n := len(w.history)
	if n == 0 {
		return
	}
	tall := int(math.Abs(w.stripY(float64(n)) - w.stripY(0)))
	if picture := w.tones.paint(tall, l); picture != nil {
		o := new(ebiten.DrawImageOptions)
		down := 1.0
		if w.looking.foot {
			down = -1
		}
		o.GeoM.Scale(float64(r.Dx()-l.Px(8))/2, down)
		o.GeoM.Translate(float64(r.Min.X+l.Px(4)), w.stripY(0))
		dst.DrawImage(picture, o)
	}
	for _, logged := range w.spans {
		if logged.to < 0 {
			logged.to = n
		}
		y0, y1 := inOrder(w.stripY(float64(n-logged.to)), w.stripY(float64(n-logged.from)))
		look.Fill(dst, image.Rect(r.Min.X, int(y0), r.Min.X+l.Px(3), max(int(y1), int(y0)+1)), l.Accent)
	}
	for i := range w.view.Contacts {
		c := &w.view.Contacts[i]
		if k, ok := w.indexOf(c.Ping); ok {
			y, x := w.stripY(float64(n-1-k)), float64(r.Max.X-l.Px(5))
			d := 4 * l.Scale
			look.Shape(dst, []float64{x, y - d, x + d, y, x, y + d, x - d, y}, l.Mark)
		}
	}
	for _, a := range w.view.Bridge.Alarms {
		if k, ok := w.indexAt(a.Time); ok {
			y := w.stripY(float64(n - 1 - k))
			look.Shape(dst, []float64{float64(r.Max.X), y, float64(r.Max.X) - 9*l.Scale, y - 4*l.Scale, float64(r.Max.X) - 9*l.Scale, y + 4*l.Scale}, l.Alarm)
		}
	}
	k := &w.looking
	rows := float64(w.rect().Dy()) / w.part(w.shown()[0].r).PerRow
	y0, y1 := inOrder(w.stripY(k.scrolled), w.stripY(min(k.scrolled+rows, w.stripRows())))
	shown := image.Rect(r.Min.X, int(y0), r.Max.X, int(math.Ceil(y1)))
	if shown.Dy() < l.Px(6) {
		shown.Max.Y = shown.Min.Y + l.Px(6)
	}
	look.Frame(dst, shown.Intersect(r), l.Px(3), l.Panel)
	look.Frame(dst, shown.Intersect(r), l.Px(2), l.Ink)
}

// logSpan is a stretch of rows that was logged; to is negative while it goes on.
type logSpan struct {
	line     string
	from, to int
}

// noteLog takes down where lines begin and end, by the newest ping.
func (w *waterfall) noteLog(line string, row int) {
	n := len(w.spans)
	open := n > 0 && w.spans[n-1].to < 0
	switch {
	case line != "" && !open:
		w.spans = append(w.spans, logSpan{line, row, -1})
	case line == "" && open:
		w.spans[n-1].to = row
	case line != "" && w.spans[n-1].line != line:
		w.spans[n-1].to = row
		w.spans = append(w.spans, logSpan{line, row, -1})
	}
}

// indexOf is the place of a ping by its number.
func (w *waterfall) indexOf(number uint64) (int, bool) {
	if p, ok := w.pinged(number); ok {
		return int(p.Number - w.history[0].Number), true
	}
	return 0, false
}

// indexAt is the place of the ping nearest to a time, seconds.
func (w *waterfall) indexAt(t float64) (int, bool) {
	lo, hi := 0, len(w.history)
	for lo < hi {
		if mid := (lo + hi) / 2; w.history[mid].Fix.Time < t {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return min(lo, len(w.history)-1), len(w.history) > 0
}

// drawLoupe shows what is under the pointer larger, beside it.
func (w *waterfall) drawLoupe(g *Game, dst *ebiten.Image, at image.Point) {
	f, ok := w.under(at)
	if !ok || at.In(w.liveRect(g.Look)) {
		return
	}
	const times = 4
	l := g.Look
	wide := min(l.Px(190), f.r.Dx()/2)
	r := image.Rect(at.X+l.Px(18), at.Y-l.Px(18)-wide, at.X+l.Px(18)+wide, at.Y-l.Px(18))
	if r.Max.X > f.r.Max.X {
		r = r.Sub(image.Pt(r.Min.X-(at.X-l.Px(18)-wide), 0))
	}
	if r.Min.Y < f.r.Min.Y {
		r = r.Add(image.Pt(0, at.Y+l.Px(18)-r.Min.Y))
	}
	v := w.part(f.r)
	bin, age := v.Left+float64(at.X-f.r.Min.X)/v.PerBin, v.Age(f.r, float64(at.Y))
	v.PerBin, v.PerRow = v.PerBin*times, v.PerRow*times
	v.Left, v.Newest = bin-float64(wide)/2/v.PerBin, age-float64(wide)/2/v.PerRow
	v.Colours.Void, v.Colours.Bottom, v.Colours.CutOff = l.Void, l.Mark, l.Alarm
	w.picture(dst, r, f.channel, v, g.shade(w.brightness))
	look.Frame(dst, r, l.Px(2), l.Ink)
	x, y, arm := float64(r.Min.X+r.Max.X)/2, float64(r.Min.Y+r.Max.Y)/2, 6*l.Scale
	look.Stroke(dst, x-arm, y, x+arm, y, l.Scale, l.Mark)
	look.Stroke(dst, x, y-arm, x, y+arm, l.Scale, l.Mark)
}
