package app

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"

	"github.com/hajimehoshi/ebiten/v2"
)

// scaleInk is the colour of what is ruled over the record: no ramp has it, and
// it is dotted, so that it is not taken for an echo.
var scaleInk = color.RGBA{0x58, 0xd8, 0xd0, 0xff}

// onRecord is how solid the ground of lettering on the record is: it is read on
// black and on white.
const onRecord = 0.85

// rowSpan are rows of one range scale, by age.
type rowSpan struct {
	from, to float64
	scale    float64 // metres
}

// rowSpans divides the rows shown where the range scale changes, newest first.
// Before the first ping it is all of the scale set.
func (w *waterfall) rowSpans(r image.Rectangle, v panes.View) []rowSpan {
	end := v.Newest + float64(r.Dy())/v.PerRow
	last := len(w.history) - 1
	n := last - int(v.Newest)
	if n < 0 {
		return []rowSpan{{v.Newest, end, w.view.Recorder.RangeScale}}
	}
	spans := []rowSpan{{v.Newest, end, w.history[n].RangeScale}}
	for age := int(v.Newest) + 1; float64(age) < end && age <= last; age++ {
		if scale := w.history[last-age].RangeScale; scale != spans[len(spans)-1].scale {
			spans[len(spans)-1].to = float64(age)
			spans = append(spans, rowSpan{float64(age), end, scale})
		}
	}
	return spans
}

// rangeMarks rules the slant range in steps that suit the scale and letters
// them at the upper edge, the outermost to each side with the unit.
func (w *waterfall) rangeMarks(dst *ebiten.Image, r image.Rectangle, v panes.View, l *look.Look, labels *panes.Labels) {
	middle := float64(r.Min.X) + (panes.RowBins-v.Left)*v.PerBin
	ink := look.Fade(scaleInk, 0.9)
	for i, span := range w.rowSpans(r, v) {
		y0, y1 := inOrder(v.Y(r, span.from), v.Y(r, span.to))
		perM := v.PerBin * panes.RowBins / span.scale
		step := rangeStep(perM, 58*l.Scale)
		look.Dotted(dst, middle, y0, middle, y1, l.Scale, 2*l.Scale, 4*l.Scale, ink)
		for _, side := range []float64{-1, 1} {
			var shown []float64
			for m := step; m <= span.scale*1.001; m += step {
				if x := middle + side*m*perM; x >= float64(r.Min.X) && x <= float64(r.Max.X) {
					look.Dotted(dst, x, y0, x, y1, 1.5*l.Scale, 2*l.Scale, 6*l.Scale, ink)
					shown = append(shown, m)
				}
			}
			if i > 0 {
				continue // lettered above, for the newest
			}
			for j, m := range shown {
				label := fmt.Sprintf("%g", m)
				if j == len(shown)-1 {
					label += " m"
				}
				wide := look.Wide(label, l.Small)
				x := min(max(middle+side*m*perM-wide/2, float64(r.Min.X)+2), float64(r.Max.X)-wide-2)
				ground := image.Rect(int(x)-2, r.Min.Y, int(x+wide)+2, r.Min.Y+int(look.Tall(l.Small)))
				labels.Keep(ground)
				look.Fill(dst, ground, look.Fade(l.Panel, onRecord))
				look.Write(dst, label, l.Small, x, float64(r.Min.Y), l.Ink, look.Left)
			}
		}
	}
}

// rangeStep is the least round step in metres that is wider than so many pixels.
func rangeStep(perM, least float64) float64 {
	steps := []float64{0.5, 1, 2, 5, 10, 20, 25, 50, 100}
	for _, s := range steps {
		if s*perM > least {
			return s
		}
	}
	return steps[len(steps)-1]
}

// wayMarks marks round times down the left edge, which move with the record,
// and rules a length along the track at its foot.
func (w *waterfall) wayMarks(dst *ebiten.Image, r image.Rectangle, v panes.View, l *look.Look, labels *panes.Labels) {
	last := len(w.history) - 1
	from := int(v.Newest)
	to := min(from+int(float64(r.Dy())/v.PerRow), last)
	if to-from < 20 {
		return
	}
	newest, oldest := &w.history[last-from], &w.history[last-to]
	took := newest.Fix.Time - oldest.Fix.Time
	tall := look.Tall(l.Small)
	clear := float64(r.Min.Y) + tall + 4*l.Scale // below the range marks
	if took <= 0 {
		return
	}
	perRow := v.PerRow * float64(to-from)
	y0, y1 := w.wayBar(dst, r, perRow/max(run(w.history[last-to:last-from+1]), 1e-3), clear, l, labels)
	step := timeStep(perRow/took, 70*l.Scale)
	ink := look.Fade(scaleInk, 0.9)
	for age := from; age < to; age++ {
		a, b := w.history[last-age-1].Fix.Time, w.history[last-age].Fix.Time
		if math.Floor(a/step) == math.Floor(b/step) {
			continue
		}
		y := v.Y(r, float64(age+1))
		if y-tall/2 < clear || y+tall > y0 && y-tall < y1 || y+tall*2 > float64(r.Max.Y) {
			continue
		}
		x := float64(r.Min.X) + 17*l.Scale
		label := w.brief.Start.Add(seconds(math.Floor(b/step) * step)).Format("15:04:05")
		look.Dotted(dst, float64(r.Min.X), y, float64(r.Min.X)+14*l.Scale, y, 1.5*l.Scale, 3*l.Scale, 2*l.Scale, ink)
		ground := image.Rect(int(x)-2, int(y-tall/2), int(x+look.Wide(label, l.Small))+2, int(y+tall/2))
		if !labels.Try(ground) {
			continue
		}
		look.Fill(dst, ground, look.Fade(l.Panel, onRecord))
		look.Write(dst, label, l.Small, x, y-tall/2, l.Ink, look.Left)
	}
}

// wayBar rules a round length along the track, so many pixels a metre, above the
// read-out at the foot, and returns from where to where.
func (w *waterfall) wayBar(dst *ebiten.Image, r image.Rectangle, perM, clear float64, l *look.Look, labels *panes.Labels) (y0, y1 float64) {
	tall := look.Tall(l.Small)
	long := rangeStep(perM, 30*l.Scale)
	x, foot := float64(r.Min.X)+7*l.Scale, float64(r.Max.Y)-tall-10*l.Scale
	top := foot - long*perM
	if top < clear+tall { // too little way on for the pane
		return foot, foot
	}
	label := fmt.Sprintf("%g m along", long)
	left := x + 7*l.Scale
	if ground := image.Rect(int(x+4*l.Scale), int((top+foot-tall)/2), int(left+look.Wide(label, l.Small))+2, int((top+foot+tall)/2)); labels.Try(ground) {
		look.Fill(dst, ground, look.Fade(l.Panel, onRecord))
		look.Write(dst, label, l.Small, left, (top+foot-tall)/2, l.Ink, look.Left)
	}
	for _, s := range [][4]float64{{x, top, x, foot}, {x - 3*l.Scale, top, x + 3*l.Scale, top}, {x - 3*l.Scale, foot, x + 3*l.Scale, foot}} {
		look.Stroke(dst, s[0], s[1], s[2], s[3], 3.5*l.Scale, l.Panel)
		look.Stroke(dst, s[0], s[1], s[2], s[3], 1.5*l.Scale, l.Ink)
	}
	return top, foot
}

// timeStep is the least round step in seconds that is wider than so many pixels.
func timeStep(perSecond, least float64) float64 {
	steps := []float64{1, 2, 5, 10, 20, 30, 60, 120, 300}
	for _, s := range steps {
		if s*perSecond > least {
			return s
		}
	}
	return steps[len(steps)-1]
}
