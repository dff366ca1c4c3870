package app

import (
	"image"
	"math"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// lineFall is the record of one line, which scrolls from end to end: newest ping on top.
type lineFall struct {
	rows       *crew.LineRows // nil while there are none
	picture    *panes.Record
	channel    int
	asRecorded bool
	looking    looking
	at         image.Rectangle // of the pings
	pane       image.Rectangle // heading, grades and all
}

// take takes rows over from the bench.
func (f *lineFall) take(rows *crew.LineRows) {
	if f.picture != nil {
		f.picture.Deallocate()
		f.picture = nil
	}
	if f.rows = rows; rows != nil {
		f.picture = panes.NewRecord(len(rows.Rows), func(i int) (levelled, plain [2][]uint8) { return rows.Rows[i].Levelled, rows.Rows[i].Plain })
		f.keepInside()
	}
}

// gradeWide is how wide the grades are lettered either side, points.
const gradeWide = 10

func (f *lineFall) lay(l *look.Look, r image.Rectangle) {
	f.pane = r
	line := int(look.Tall(l.Small)) + l.Px(6)
	f.at = image.Rect(r.Min.X+l.Px(gradeWide), r.Min.Y+line, r.Max.X-l.Px(gradeWide), r.Max.Y-line)
	f.keepInside()
}

// part is the part of the record that is shown.
func (f *lineFall) part() panes.View { return f.looking.part(f.at, f.asRecorded) }

func (f *lineFall) keepInside() {
	if f.rows == nil || f.at.Empty() {
		return
	}
	f.looking.keepInside(f.at, len(f.rows.Rows))
}

// input scrolls, zooms and moves it.
func (f *lineFall) input(at image.Point, taken bool) {
	if f.rows == nil {
		return
	}
	k, v := &f.looking, f.part()
	page := float64(f.at.Dy()) / v.PerRow
	switch {
	case again(ebiten.KeyPageDown):
		k.scrolled += 0.8 * page
	case again(ebiten.KeyPageUp):
		k.scrolled -= 0.8 * page
	case justPressed(ebiten.KeyEnd):
		k.scrolled = 0
	case justPressed(ebiten.KeyHome):
		k.scrolled = float64(len(f.rows.Rows))
	case justPressed(ebiten.KeyW):
		k.zoom, k.across = 1, 0
	}
	on := at.In(f.at) && !taken
	if dy, zoom := turned(); dy != 0 && on {
		if zoom {
			age, perRow := k.zoomAbout(math.Pow(1.2, dy), f.at, at)
			k.scrolled = age - float64(at.Y-f.at.Min.Y)/perRow
		} else {
			k.scrolled -= dy * 24 / k.zoom
		}
	}
	switch {
	case (wentDown(ebiten.MouseButtonRight) || wentDown(ebiten.MouseButtonMiddle)) && on:
		k.panning, k.panned = true, at
	case !held(ebiten.MouseButtonRight) && !held(ebiten.MouseButtonMiddle):
		k.panning = false
	case k.panning:
		by := at.Sub(k.panned)
		k.panned = at
		k.across -= float64(by.X) / v.PerBin
		k.scrolled -= float64(by.Y) / v.PerRow
	}
	f.keepInside()
}

// under is the ping under a pixel, by its index, and the slant range there as a share of the range.
func (f *lineFall) under(at image.Point) (i int, share float64, starboard, ok bool) {
	if f.rows == nil || !at.In(f.at) {
		return 0, 0, false, false
	}
	v := f.part()
	i = len(f.rows.Rows) - 1 - int(math.Floor(v.Newest+float64(at.Y-f.at.Min.Y)/v.PerRow))
	s := (v.Left + (float64(at.X-f.at.Min.X))/v.PerBin - panes.RowBins) / panes.RowBins
	return i, math.Abs(s), s > 0, i >= 0 && i < len(f.rows.Rows) && math.Abs(s) <= 1
}

// pixel is where a share of the range of a ping lies.
func (f *lineFall) pixel(i int, share float64, starboard bool) (x, y float64) {
	v := f.part()
	if !starboard {
		share = -share
	}
	return float64(f.at.Min.X) + (panes.RowBins*(1+share)-v.Left)*v.PerBin, float64(f.at.Min.Y) + (float64(len(f.rows.Rows)-1-i)+0.5-v.Newest)*v.PerRow
}

// groundPixel is how much ground a pixel of the record takes, metres, along the track or across it, whichever is more.
func (f *lineFall) groundPixel() float64 {
	v, line := f.part(), f.rows.Line
	size := line.RangeScale / (panes.RowBins * v.PerBin)
	if n := len(line.Pings); n > 1 {
		a, b := &line.Pings[0].Fix, &line.Pings[n-1].Fix
		size = max(size, math.Hypot(b.X-a.X, b.Y-a.Y)/float64(n-1)/v.PerRow)
	}
	return math.Round(1000*size) / 1000
}

// inSight scrolls a ping into sight.
func (f *lineFall) inSight(i int) {
	age, rows := float64(len(f.rows.Rows)-1-i), float64(f.at.Dy())/f.part().PerRow
	if age < f.looking.scrolled+2 || age > f.looking.scrolled+rows-2 {
		f.looking.scrolled = age - rows/2
		f.keepInside()
	}
}

// goodEnough is the grade from which on the bottom track is drawn as a whole line: our own choice.
const goodEnough = 0.5

// ground is the ground at a place of the record as the survey stands.
func (f *lineFall) ground(i int, share float64, starboard bool) (x, y float64, ok bool) {
	p := &f.rows.Line.Pings[i]
	return survey.GroundAt(p.Fix, p.Height, starboard, share*f.rows.Line.RangeScale)
}
