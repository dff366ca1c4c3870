package panes

import (
	"image"
	"image/color"
	"math"

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
	x, pad := float64(r.Min.X+l.Px(10)), float64(l.Px(4))
	y := float64(r.Min.Y) + pad
	look.Write(dst, d.Name, l.Small, x, y, l.Soft, look.Left)
	y += look.Tall(l.Small) + float64(l.Px(1))
	look.Write(dst, d.Value, l.Dial, x, y, ink, look.Left)
	unit := x + look.Wide(d.Value, l.Dial) + float64(l.Px(4))
	look.Write(dst, d.Unit, l.Small, unit, y+look.Tall(l.Dial)-look.Tall(l.Small)-float64(l.Px(2)), l.Soft, look.Left)
	d.plot(dst, image.Rect(r.Max.X-l.Px(46), r.Min.Y+l.Px(6), r.Max.X-l.Px(6), r.Min.Y+l.Px(6)+int(look.Tall(l.Small))), l)
	y += look.Tall(l.Dial)
	note := l.Soft
	if d.State == Watch || d.State == Beyond {
		note = l.Ink
	}
	look.Write(dst, d.Note, l.Small, x, y, note, look.Left)
}

// plot draws the trend.
func (d *Dial) plot(dst *ebiten.Image, r image.Rectangle, l *look.Look) {
	if len(d.trend) < 2 {
		return
	}
	lo, hi := d.reach()
	var line []float64
	for i, v := range d.trend {
		if math.IsNaN(v) {
			look.Trace(dst, line, l.Scale, l.Soft)
			line = line[:0]
			continue
		}
		line = append(line,
			float64(r.Min.X)+float64(i+trendLength-len(d.trend))/(trendLength-1)*float64(r.Dx()),
			float64(r.Max.Y)-(v-lo)/(hi-lo)*float64(r.Dy()))
	}
	look.Trace(dst, line, l.Scale, l.Soft)
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
