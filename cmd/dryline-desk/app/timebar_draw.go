package app

import (
	"fmt"
	"image"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// draw draws the bar with the moment that is chosen.
func (b *timebar) draw(dst *ebiten.Image, l *look.Look) {
	look.Fill(dst, b.pane, l.Panel)
	for i, r := range b.lane {
		middle := float64(r.Min.Y+r.Max.Y) / 2
		look.Write(dst, laneNames[i], l.Small, float64(b.pane.Min.X+l.Px(8)), middle-look.Tall(l.Small)/2, l.Soft, look.Left)
		look.Fill(dst, image.Rect(r.Min.X, r.Max.Y-1, r.Max.X, r.Max.Y), look.Fade(l.Rule, 0.7))
	}
	b.drawClock(dst, l)
	b.drawHeight(dst, l)
	for i := range b.events {
		b.drawOccurrence(dst, l, &b.events[i])
	}
	b.drawMoment(dst, l)
}

// drawClock letters the times under the lanes.
func (b *timebar) drawClock(dst *ebiten.Image, l *look.Look) {
	y := float64(b.lane[laneCount-1].Max.Y)
	wide := look.Wide("00:00", l.Small)
	step := 60.0
	for _, s := range []float64{60, 120, 300, 600, 900, 1800, 3600, 7200, 14400} {
		step = s
		if (b.x(s) - b.x(0)) > 2*wide {
			break
		}
	}
	for s := 0.0; s <= b.end(); s += step {
		x := b.x(s)
		look.Fill(dst, image.Rect(int(x), b.lane[0].Min.Y, int(x)+1, int(y)), look.Fade(l.Rule, 0.5))
		if x-wide/2 > float64(b.pane.Min.X) && x+wide/2 < float64(b.pane.Max.X) {
			look.Write(dst, b.clock(s)[:5], l.Small, x, y, l.Soft, look.Middle)
		}
	}
}

// drawHeight draws the height of the fish, with the band that was wanted.
func (b *timebar) drawHeight(dst *ebiten.Image, l *look.Look) {
	r, t, w := b.lane[heightLane], &b.report.Timeline, &b.report.Wanted
	r.Min.Y, r.Max.Y = r.Min.Y+l.Px(2), r.Max.Y-l.Px(2)
	top := max(w.AltitudeMax*1.6, 1)
	for _, h := range t.Height {
		top = max(top, min(h, 60))
	}
	y := func(percent float64) float64 {
		return float64(r.Max.Y) - float64(r.Dy())*min(max(percent/top, 0), 1)
	}
	look.Fill(dst, image.Rect(r.Min.X, int(y(w.AltitudeMax)), r.Max.X, int(y(w.AltitudeMin))), look.Fade(l.Band, 0.3))
	var run []float64
	end := func() {
		if len(run) == 2 {
			run = append(run, run[0]+l.Scale, run[1])
		}
		look.Trace(dst, run, 1.5*l.Scale, l.Fish)
		run = run[:0]
	}
	for i := range t.Time {
		if i > 0 && t.Time[i]-t.Time[i-1] > b.gap() {
			end()
		}
		run = append(run, b.x(t.Time[i]), y(t.Height[i]))
	}
	end()
}

// drawOccurrence draws one thing. Its lane and its shape tell what it is, its colour
// only says it again.
func (b *timebar) drawOccurrence(dst *ebiten.Image, l *look.Look, h *occurrence) {
	r := b.lane[h.lane]
	x0, x1 := b.x(h.from), b.x(h.to)
	middle := float64(r.Min.Y+r.Max.Y) / 2
	s := l.Scale
	switch h.lane {
	case lineLane:
		at := image.Rect(int(x0), r.Min.Y+l.Px(1), max(int(x1), int(x0)+l.Px(2)), r.Max.Y-l.Px(1))
		look.Fill(dst, at, l.Track)
		look.Fill(dst, at.Inset(max(l.Px(1), 1)), l.Panel)
		if look.Wide(h.kind, l.Small)+4*s < x1-x0 {
			look.Write(dst, h.kind, l.Small, (x0+x1)/2, middle-look.Tall(l.Small)/2, l.Ink, look.Middle)
		} else {
			look.Fill(dst, at, l.Track)
		}
	case coachLane:
		b.drawHint(dst, l, h, x0, max(x1, x0+3*s))
	case orderLane: // a flag
		look.Stroke(dst, x0, middle-5*s, x0, middle+5*s, 1.5*s, l.Ink)
		look.Shape(dst, []float64{x0, middle - 5*s, x0 + 6*s, middle - 2.5*s, x0, middle}, l.Ink)
	case markLane:
		switch h.kind {
		case "true":
			look.Shape(dst, []float64{x0, middle - 5*s, x0 + 5*s, middle + 4*s, x0 - 5*s, middle + 4*s}, l.Truth)
		case "false":
			cross(dst, l, x0, middle)
		default:
			look.Frame(dst, image.Rect(int(x0-4*s), int(middle-4*s), int(x0+4*s), int(middle+4*s)), max(l.Px(1.5), 1), l.Soft)
		}
	case mishapLane:
		look.Shape(dst, []float64{x0, middle - 6*s, x0 + 5*s, middle, x0, middle + 6*s, x0 - 5*s, middle}, l.Alarm)
	}
}

// drawHint draws a hint: a line for a note, a hatched bar for a caution, a full one for
// an alarm.
func (b *timebar) drawHint(dst *ebiten.Image, l *look.Look, h *occurrence, x0, x1 float64) {
	r := b.hintLane(h.kind)
	at := image.Rect(int(x0), r.Min.Y+1, int(x1), max(r.Max.Y-1, r.Min.Y+2))
	switch h.kind {
	case "alarm":
		look.Fill(dst, at, l.Alarm)
	case "caution":
		look.Frame(dst, at, 1, l.Caution)
		for x := x0 + 3*l.Scale; x < x1-l.Scale; x += 4 * l.Scale {
			look.Fill(dst, image.Rect(int(x), at.Min.Y, int(x)+max(l.Px(1.5), 1), at.Max.Y), l.Caution)
		}
	default:
		y := (at.Min.Y + at.Max.Y) / 2
		look.Fill(dst, image.Rect(at.Min.X, y, at.Max.X, y+max(l.Px(2), 1)), l.Soft)
	}
}

// drawMoment rules the moment that is chosen, and more faintly the one under the
// pointer.
func (b *timebar) drawMoment(dst *ebiten.Image, l *look.Look) {
	top, foot := float64(b.lane[0].Min.Y), float64(b.lane[laneCount-1].Max.Y)
	if b.on {
		x := b.x(b.time(b.gone.X))
		look.Dotted(dst, x, top, x, foot, l.Scale, 2*l.Scale, 3*l.Scale, l.Soft)
	}
	x := b.x(b.at)
	look.Stroke(dst, x, top, x, foot, 4*l.Scale, l.Panel)
	look.Stroke(dst, x, top, x, foot, 2*l.Scale, l.Accent)
	s := 5 * l.Scale
	look.Shape(dst, []float64{x - s, top - s/2, x + s, top - s/2, x, top + s}, l.Accent)
}

// drawTip letters what the pointer rests on, beside it.
func (b *timebar) drawTip(dst *ebiten.Image, l *look.Look, window image.Rectangle) {
	if !b.on {
		return
	}
	at := b.time(b.gone.X)
	says := b.clock(at)
	if h := b.under(b.gone, l); h != nil {
		says += "  " + h.says
		if h.from == h.to {
			says = b.clock(h.from) + "  " + h.says
		}
	} else if height, ok := b.height(at); ok && b.gone.In(b.lane[heightLane]) {
		says += fmt.Sprintf("  fish at %.0f %% of the range scale, wanted %.0f to %.0f %%", height, b.report.Wanted.AltitudeMin, b.report.Wanted.AltitudeMax)
	}
	tip(dst, l, says, b.gone, window)
}

// tip letters some words beside a pixel, inside the window.
func tip(dst *ebiten.Image, l *look.Look, says string, at image.Point, window image.Rectangle) {
	lines := wrapped(says, l.Small, float64(l.Px(380)))
	wide, tall := 0.0, look.Tall(l.Small)
	for _, line := range lines {
		wide = max(wide, look.Wide(line, l.Small))
	}
	r := image.Rect(0, 0, int(wide)+l.Px(12), int(tall*float64(len(lines)))+l.Px(8))
	r = r.Add(image.Pt(at.X+l.Px(12), at.Y-r.Dy()-l.Px(10)))
	r = r.Add(image.Pt(min(window.Max.X-l.Px(4)-r.Max.X, 0), max(window.Min.Y+l.Px(4)-r.Min.Y, 0)))
	look.Fill(dst, r, l.Panel)
	look.Frame(dst, r, max(l.Px(1), 1), l.Ink)
	for i, line := range lines {
		look.Write(dst, line, l.Small, float64(r.Min.X+l.Px(6)), float64(r.Min.Y+l.Px(4))+float64(i)*tall, l.Ink, look.Left)
	}
}

// drawSays letters what went on at the moment chosen.
func (b *timebar) drawSays(dst *ebiten.Image, l *look.Look, r image.Rectangle) {
	look.Fill(dst, r, l.Panel)
	clock := b.clock(b.at)
	x := float64(r.Min.X + l.Px(8))
	middle := float64(r.Min.Y+r.Max.Y) / 2
	look.Write(dst, clock, l.Strong, x, middle-look.Tall(l.Strong)/2, l.Ink, look.Left)
	x += look.Wide(clock, l.Strong) + float64(l.Px(12))
	says := look.Fitted(b.says(b.at), l.Small, r.Max.X-int(x)-l.Px(8))
	look.Write(dst, says, l.Small, x, middle-look.Tall(l.Small)/2, l.Ink, look.Left)
}
