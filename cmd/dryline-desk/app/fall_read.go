package app

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"

	"github.com/hajimehoshi/ebiten/v2"
)

// echo is the ping and slant range under a pixel of the waterfall.
func (w *waterfall) echo(at image.Point) (p *crew.Ping, slant float64, starboard, ok bool) {
	f, ok := w.under(at)
	if !ok {
		return nil, 0, false, false
	}
	r, v := f.r, w.part(f.r)
	age := int(math.Floor(v.Age(r, float64(at.Y))))
	n := len(w.history) - 1 - age
	if age < 0 || age >= w.held() { // no row is held there
		return nil, 0, false, false
	}
	p = &w.history[n]
	column := v.Left + float64(at.X-r.Min.X)/v.PerBin
	share := (column - panes.RowBins) / panes.RowBins
	if math.Abs(share) > 1 {
		return nil, 0, false, false
	}
	return p, math.Abs(share) * p.RangeScale, share > 0, true
}

// readOut letters what is under the pointer.
func (w *waterfall) readOut(dst *ebiten.Image, at image.Point, r image.Rectangle, l *look.Look, measure *ruler) {
	p, slant, starboard, ok := w.echo(at)
	if !ok {
		return
	}
	f, _ := w.under(at)
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
	if measure != nil {
		look.Stroke(dst, float64(measure.from.X), float64(measure.from.Y), x, yy, 2*l.Scale, l.Mark)
		figure(dst, at, r, measure.says, l)
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
func (w *waterfall) readings(p *crew.Ping, channel int, slant float64, starboard bool) []string {
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
	return look.Fitted(lines[len(lines)-1], l.Small, width)
}
