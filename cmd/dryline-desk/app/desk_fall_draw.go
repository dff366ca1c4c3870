package app

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/product"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// draw draws it, or how far it has come.
func (f *lineFall) draw(g *Game, dst *ebiten.Image, s *recordStation, coming bool, share float64) {
	l := g.Look
	look.Fill(dst, f.pane, l.Panel)
	if coming || f.rows == nil {
		look.Fill(dst, f.at, l.Sunk)
		if coming {
			bar(dst, l, f.at, share, "The record is read and levelled.")
		} else {
			look.Write(dst, look.Fitted("There is no record to show.", l.Body, f.at.Dx()), l.Body, float64(f.at.Min.X+f.at.Max.X)/2, float64(f.at.Min.Y+f.at.Max.Y)/2, l.Soft, look.Middle)
		}
		return
	}
	v := f.part()
	v.Colours.Void, v.Colours.Bottom, v.Colours.CutOff = l.Void, l.Band, l.Alarm
	f.picture.Draw(dst, f.at, v, g.shade(s.desk.watch.fall.brightness))
	pane := dst.SubImage(f.at).(*ebiten.Image)
	var labels panes.Labels
	f.drawScale(pane, s, l, &labels)
	f.drawLogged(pane, s, l)
	f.drawBottom(pane, l)
	f.drawGrades(dst, l)
	s.mend.draw(pane, s, l, &labels)
	s.mark.draw(g, pane, s, l, &labels)
	f.letter(dst, l, s)
}

// seen are the pings in sight, by index.
func (f *lineFall) seen() (from, to int) {
	v := f.part()
	n := len(f.rows.Rows)
	return max(n-1-int(v.Newest+float64(f.at.Dy())/v.PerRow)-1, 0), min(n-int(v.Newest)+1, n)
}

// drawScale rules ranges across the record and letters times along it.
func (f *lineFall) drawScale(pane *ebiten.Image, s *recordStation, l *look.Look, labels *panes.Labels) {
	scale := f.rows.Line.RangeScale
	step := 5.0
	for step/scale*float64(f.at.Dx())/2*f.looking.zoom < 90*l.Scale {
		step *= 2
	}
	tall := int(look.Tall(l.Small))
	for r := step; r < scale; r += step {
		for side := range 2 {
			x, _ := f.pixel(0, r/scale, side == 1)
			if x < float64(f.at.Min.X) || x > float64(f.at.Max.X) {
				continue
			}
			look.Dotted(pane, x, float64(f.at.Min.Y), x, float64(f.at.Max.Y), 1*l.Scale, 2*l.Scale, 6*l.Scale, scaleInk)
			says := fmt.Sprintf("%g m", r)
			half := int(look.Wide(says, l.Small)/2) + l.Px(3)
			ground := image.Rect(int(x)-half, f.at.Min.Y, int(x)+half, f.at.Min.Y+tall)
			if ground.In(f.at) && labels.Try(ground) {
				look.Fill(pane, ground, look.Fade(l.Panel, onRecord))
				look.Write(pane, says, l.Small, x, float64(ground.Min.Y), l.Ink, look.Middle)
			}
		}
	}
	line, start := f.rows.Line, s.desk.brief.Start
	from, to := f.seen()
	last := -1
	for i := from; i < to; i++ {
		ten := int(line.Pings[i].Fix.Time / 10)
		if ten == last || last < 0 {
			last = ten
			continue
		}
		last = ten
		_, y := f.pixel(i, 0, false)
		says := start.Add(seconds(float64(ten) * 10)).Format("15:04:05")
		ground := image.Rect(f.at.Min.X+l.Px(4), int(y)-tall/2, f.at.Min.X+l.Px(10)+int(look.Wide(says, l.Small)), int(y)-tall/2+tall)
		if ground.In(f.at) && labels.Try(ground) {
			look.Fill(pane, ground, look.Fade(l.Panel, onRecord))
			look.Write(pane, says, l.Small, float64(ground.Min.X+l.Px(3)), float64(ground.Min.Y), l.Ink, look.Left)
		}
	}
}

// drawBottom draws the bottom track on both sides: whole where that side's record bears it out, in dots
// where it does not.
func (f *lineFall) drawBottom(pane *ebiten.Image, l *look.Look) {
	line := f.rows.Line
	from, to := f.seen()
	step := max(int(1/f.part().PerRow), 1)
	for side := range 2 {
		var whole []float64
		flush := func() {
			look.Trace(pane, whole, 3*l.Scale, color.RGBA{A: 0x90})
			look.Trace(pane, whole, 1.5*l.Scale, scaleInk)
			whole = whole[:0]
		}
		for i := from - from%step; i < to; i += step {
			p := &line.Pings[i]
			x, y := f.pixel(i, p.Height/line.RangeScale, side == 1)
			switch {
			case !(p.Height > 0):
				flush()
			case f.rows.Rows[i].Grade[side] >= goodEnough:
				whole = append(whole, x, y)
			default:
				flush()
				if every := max(int(7*l.Scale/f.part().PerRow), 1); i/step%every == 0 {
					look.Disc(pane, x, y, 2.6*l.Scale, color.RGBA{A: 0xa0})
					look.Disc(pane, x, y, 1.7*l.Scale, l.Caution)
				}
			}
		}
		flush()
	}
}

// drawLogged draws the bottom track of the watch, thinly, where the one that stands is another.
func (f *lineFall) drawLogged(pane *ebiten.Image, s *recordStation, l *look.Look) {
	if s.desk.papers.Desk.Worked == nil {
		return
	}
	was, now := s.logged(), f.rows.Line
	from, to := f.seen()
	step := max(int(1/f.part().PerRow), 1)
	for side := range 2 {
		var line []float64
		for i := from - from%step; i < to; i += step {
			a, b := was.Pings[i].Height/was.RangeScale, now.Pings[i].Height/now.RangeScale
			if math.Abs(a-b) < 0.01*b || a <= 0 {
				look.Trace(pane, line, 1.2*l.Scale, l.Mark)
				line = line[:0]
				continue
			}
			x, y := f.pixel(i, a, side == 1)
			line = append(line, x, y)
		}
		look.Trace(pane, line, 1.2*l.Scale, l.Mark)
	}
}

// drawGrades draws beside the record, either side, how well it bears the bottom out: a full bar is a
// bottom that stands out, none one that does not show.
func (f *lineFall) drawGrades(dst *ebiten.Image, l *look.Look) {
	v := f.part()
	wide := l.Px(gradeWide) - l.Px(2)
	from, to := f.seen()
	for _, strip := range []image.Rectangle{{image.Pt(f.pane.Min.X, f.at.Min.Y), image.Pt(f.at.Min.X, f.at.Max.Y)}, {image.Pt(f.at.Max.X, f.at.Min.Y), image.Pt(f.pane.Max.X, f.at.Max.Y)}} {
		look.Fill(dst, strip, l.Sunk)
	}
	tall := max(l.Px(3), int(v.PerRow+0.5), 1) // of a block of pings
	each := max(int(float64(tall)/v.PerRow), 1)
	for i := from - from%each; i < to; i += each {
		var sum [2]float64
		end := min(i+each, len(f.rows.Rows))
		for k := i; k < end; k++ {
			for side := range 2 {
				sum[side] += f.rows.Rows[k].Grade[side] / float64(end-i)
			}
		}
		_, y0 := f.pixel(end-1, 0, false)
		_, y1 := f.pixel(i, 0, false)
		top, bottom := max(int(y0-v.PerRow/2), f.at.Min.Y), min(int(math.Ceil(y1+v.PerRow/2)), f.at.Max.Y)
		for side := range 2 {
			ink := l.Band
			if sum[side] < goodEnough {
				ink = l.Caution
			}
			n := int(sum[side] * float64(wide))
			if side == 0 {
				look.Fill(dst, image.Rect(f.at.Min.X-n, top, f.at.Min.X, bottom), ink)
			} else {
				look.Fill(dst, image.Rect(f.at.Max.X, top, f.at.Max.X+n, bottom), ink)
			}
		}
	}
}

// letter letters the heading and what lies under the pointer.
func (f *lineFall) letter(dst *ebiten.Image, l *look.Look, s *recordStation) {
	line := f.rows.Line
	mean := 0.0
	for i := range f.rows.Rows {
		mean += (f.rows.Rows[i].Grade[0] + f.rows.Rows[i].Grade[1]) / 2 / float64(len(f.rows.Rows))
	}
	how := "levelled"
	if f.asRecorded {
		how = "as recorded"
	}
	head := fmt.Sprintf("Run %d, line %s, %s, %g m to a side, %s. Bottom graded %.2f of 1.", f.rows.Run, line.Name, product.ChannelLabel(s.desk.brief.Sonar.Channels[f.rows.Channel]), math.Round(line.RangeScale*10)/10, how, mean)
	if s.desk.papers.Desk.Worked != nil {
		head += fmt.Sprintf(" As worked up: the fish lies %.1f m from where the watch had it, on the mean.", apart(s.logged(), line))
	}
	if c := s.desk.contact(s.desk.chosen); c != nil {
		head += fmt.Sprintf(" %s: %s.", contactName(*c), contactSays(*c))
	}
	look.Write(dst, look.Fitted(head, l.Small, f.pane.Dx()-l.Px(12)), l.Small, float64(f.pane.Min.X+l.Px(6)), float64(f.pane.Min.Y+l.Px(3)), l.Ink, look.Left)
	at := pointed.at
	says := "Bars either side: how well that side's record bears the bottom out. Dots: hardly."
	if i, share, starboard, ok := f.under(at); ok {
		says = f.readOut(i, share, starboard)
	}
	look.Write(dst, look.Fitted(says, l.Small, f.pane.Dx()-l.Px(12)), l.Small, float64(f.pane.Min.X+l.Px(6)), float64(f.at.Max.Y+l.Px(3)), l.Ink, look.Left)
}

// readOut says what lies at a place of the record.
func (f *lineFall) readOut(i int, share float64, starboard bool) string {
	p, line := &f.rows.Line.Pings[i], f.rows.Line
	slant, side, k := share*line.RangeScale, "port", 0
	if starboard {
		side, k = "starboard", 1
	}
	says := fmt.Sprintf("Ping %d, %.1f m slant to %s", p.Number, slant, side)
	if slant > p.Height {
		says += fmt.Sprintf(", %.1f m over the ground", math.Sqrt(slant*slant-p.Height*p.Height))
	} else {
		says += ", in the water"
	}
	return says + fmt.Sprintf("; fish %.2f m up, graded %.2f on this side", p.Height, f.rows.Rows[i].Grade[k])
}

// apart is how far the fish stands from where it was logged, on the mean, metres.
func apart(was, now *survey.LineRecord) float64 {
	sum := 0.0
	for i := range now.Pings {
		sum += math.Hypot(now.Pings[i].Fix.X-was.Pings[i].Fix.X, now.Pings[i].Fix.Y-was.Pings[i].Fix.Y)
	}
	return sum / float64(max(len(now.Pings), 1))
}
