package panes

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strings"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// State is how a dial stands. It shows by colour, by a bar of its own shape and
// by the dial's words.
type State int

// The states.
const (
	Calm    State = iota
	Watch         // near a limit
	Beyond        // past it
	Unknown       // the instrument gives no answer
)

// Dial is one reading with its unit and where it has been.
type Dial struct {
	Name, Value, Unit, Note string
	State                   State
	Span                    float64 // least that the height of the trend stands for: less is noise
	Turns                   bool    // the value is a bearing in degrees
	Large                   bool    // its trend has a scale and the wanted band in it
	Low, High               float64 // the band; none if they are the same
	trend                   []float64
}

// trendLength is how many values of a trend are kept, one a second.
const trendLength = 90

// Push adds a value to the trend, NaN for none. A bearing goes on past north.
func (d *Dial) Push(v float64) {
	if d.Turns {
		for i := len(d.trend) - 1; i >= 0; i-- {
			if last := d.trend[i]; !math.IsNaN(last) {
				v = last + math.Remainder(v-last, 360)
				break
			}
		}
	}
	d.trend = append(d.trend, v)
	if len(d.trend) > trendLength {
		d.trend = append(d.trend[:0], d.trend[len(d.trend)-trendLength:]...)
	}
}

// Draw draws the dial.
func (d *Dial) Draw(dst *ebiten.Image, r image.Rectangle, l *look.Look) {
	look.Fill(dst, r, l.Panel)
	ink := l.Ink
	var bar color.Color
	switch d.State {
	case Watch:
		bar = l.Caution
	case Beyond:
		bar, ink = l.Alarm, l.Alarm
	case Unknown:
		bar, ink = l.Soft, l.Soft
	}
	if bar != nil {
		wide := l.Px(3)
		if d.State == Beyond {
			wide = l.Px(6)
		}
		look.Fill(dst, image.Rect(r.Min.X, r.Min.Y, r.Min.X+wide, r.Max.Y), bar)
	}
	note := l.Soft
	if d.State == Watch || d.State == Beyond {
		note = l.Ink
	}
	if d.Large {
		d.drawLarge(dst, r, l, ink, note)
		return
	}
	d.drawSmall(dst, r, l, ink, note)
}

// drawSmall draws name, value and trend in one row and the note under them.
func (d *Dial) drawSmall(dst *ebiten.Image, r image.Rectangle, l *look.Look, ink, note color.Color) {
	x, y := float64(r.Min.X+l.Px(10)), float64(r.Min.Y+l.Px(2))
	base := y + look.Tall(l.Strong)
	small := base - look.Tall(l.Small) - float64(l.Px(1))
	look.Write(dst, d.Name, l.Small, x, small, l.Soft, look.Left)
	x += look.Wide(d.Name, l.Small) + float64(l.Px(7))
	look.Write(dst, d.Value, l.Strong, x, y, ink, look.Left)
	x += look.Wide(d.Value, l.Strong) + float64(l.Px(3))
	look.Write(dst, d.Unit, l.Small, x, small, l.Soft, look.Left)
	x += look.Wide(d.Unit, l.Small) + float64(l.Px(8))
	if plot := image.Rect(max(r.Max.X-l.Px(46), int(x)), r.Min.Y+l.Px(4), r.Max.X-l.Px(6), int(base)-l.Px(2)); plot.Dx() > l.Px(20) {
		lo, hi := d.reach()
		d.plot(dst, plot, l, lo, hi, l.Scale, l.Soft)
	}
	look.Write(dst, d.note(l, r.Dx()-l.Px(12)), l.Small, float64(r.Min.X+l.Px(10)), base, note, look.Left)
}

// drawLarge draws the value large and beside it its trend with a scale, the wanted band and how
// long it goes back.
func (d *Dial) drawLarge(dst *ebiten.Image, r image.Rectangle, l *look.Look, ink, note color.Color) {
	x, pad := float64(r.Min.X+l.Px(10)), float64(l.Px(4))
	y := float64(r.Min.Y) + pad
	look.Write(dst, d.Name, l.Small, x, y, l.Soft, look.Left)
	y += look.Tall(l.Small)
	look.Write(dst, d.Value, l.Title, x, y, ink, look.Left)
	unit := x + look.Wide(d.Value, l.Title) + float64(l.Px(4))
	look.Write(dst, d.Unit, l.Small, unit, y+look.Tall(l.Title)-look.Tall(l.Small)-float64(l.Px(3)), l.Soft, look.Left)
	y += look.Tall(l.Title)
	says := d.note(l, r.Dx()-l.Px(12))
	look.Write(dst, says, l.Small, x, y, note, look.Left)
	left := max(r.Min.X+l.Px(LargeLettering), int(unit+look.Wide(d.Unit, l.Small))+l.Px(6))
	figures := int(look.Wide("-00.0", l.Small)) + l.Px(4)
	// The note may be longer than the value: the plot stands above it then.
	foot := r.Max.Y - l.Px(5)
	if int(x+look.Wide(says, l.Small)) > left {
		foot = int(y)
	}
	plot := image.Rect(left, r.Min.Y+l.Px(6), r.Max.X-figures-l.Px(6), foot)
	if plot.Dx() < l.Px(40) || plot.Dy() < l.Px(20) {
		return
	}
	d.drawScale(dst, plot, l)
}

// LargeLettering is how wide the lettering of a large dial is at least, points.
const LargeLettering = 130

// drawScale draws the trend over its band, with the figures of its scale at the right.
func (d *Dial) drawScale(dst *ebiten.Image, r image.Rectangle, l *look.Look) {
	lo, hi := d.reach()
	if d.High > d.Low { // what is wanted is always in sight
		lo, hi = min(lo, d.Low-0.15*(d.High-d.Low)), max(hi, d.High+0.15*(d.High-d.Low))
	}
	look.Fill(dst, r, l.Sunk)
	at := func(v float64) float64 { return float64(r.Max.Y) - (v-lo)/(hi-lo)*float64(r.Dy()) }
	if d.High > d.Low {
		band := image.Rect(r.Min.X, int(at(d.High)), r.Max.X, int(at(d.Low)))
		look.Fill(dst, band, look.Fade(l.Band, 0.3))
		for _, v := range []float64{d.Low, d.High} {
			y := math.Floor(at(v)) + 0.5
			look.Dashed(dst, float64(r.Min.X), y, float64(r.Max.X), y, l.Scale, 4*l.Scale, l.Band)
		}
	}
	tall := look.Tall(l.Small)
	x := float64(r.Max.X) + 4*l.Scale
	last := math.Inf(1)
	for _, v := range d.marks(lo, hi) {
		y := at(v)
		top := min(max(y-tall/2, float64(r.Min.Y)-float64(l.Px(4))), float64(r.Max.Y)+float64(l.Px(4))-tall)
		if last-top < tall {
			continue
		}
		last = top
		look.Stroke(dst, float64(r.Max.X)-3*l.Scale, y, float64(r.Max.X), y, l.Scale, l.Soft)
		look.Write(dst, fmt.Sprintf("%g", math.Round(10*v)/10+0), l.Small, x, top, l.Soft, look.Left)
	}
	d.plot(dst, r, l, lo, hi, 1.6*l.Scale, l.Ink)
}

// marks are the values that the scale has figures at, from below: the band's edges, or else round ones.
func (d *Dial) marks(lo, hi float64) []float64 {
	if d.High > d.Low {
		return []float64{d.Low, d.High}
	}
	return []float64{lo, hi}
}

// plot draws the trend between two values.
func (d *Dial) plot(dst *ebiten.Image, r image.Rectangle, l *look.Look, lo, hi, width float64, ink color.Color) {
	if len(d.trend) < 2 {
		return
	}
	var line []float64
	for i, v := range d.trend {
		if math.IsNaN(v) {
			look.Trace(dst, line, width, ink)
			line = line[:0]
			continue
		}
		line = append(line,
			float64(r.Min.X)+float64(i+trendLength-len(d.trend))/(trendLength-1)*float64(r.Dx()),
			float64(r.Max.Y)-(v-lo)/(hi-lo)*float64(r.Dy()))
	}
	look.Trace(dst, line, width, ink)
}

// reach returns the values at the foot and the top of the trend.
func (d *Dial) reach() (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, v := range d.trend {
		if !math.IsNaN(v) {
			lo, hi = min(lo, v), max(hi, v)
		}
	}
	if hi < lo {
		return 0, 1
	}
	if short := max(d.Span, 1e-6) - (hi - lo); short > 0 {
		lo, hi = lo-short/2, hi+short/2
	}
	return lo, hi
}

// note picks what the dial says in words: of several ways with a bar between them the first that has room.
func (d *Dial) note(l *look.Look, room int) string {
	ways := strings.Split(d.Note, "|")
	for _, way := range ways {
		if look.Wide(way, l.Small) <= float64(room) {
			return way
		}
	}
	return look.Fitted(ways[len(ways)-1], l.Small, room)
}
