package app

import (
	"fmt"
	"image"
	"math"
	"strings"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/coach"
	"dryline/vessel/nav"

	"github.com/hajimehoshi/ebiten/v2"
)

// dialRow is the row of instruments.
type dialRow struct {
	*post
	dials  []*panes.Dial
	second int64 // of the last trend
}

// gauge is the reading of a dial.
type gauge struct {
	value, unit, note string
	state             panes.State
	trend             float64
	low, high         float64 // wanted, of the trend; none if they are the same
}

// instruments are the dials and how each is read. The least spans are what an
// instrument's noise keeps well within: our own choice.
var instruments = []struct {
	dial panes.Dial
	read func(*dialRow, *helm) gauge
}{
	{panes.Dial{Name: "Fish height", Span: 2, Large: true}, (*dialRow).height},
	{panes.Dial{Name: "Off line", Span: 2, Large: true}, (*dialRow).off},
	{panes.Dial{Name: "Speed", Span: 0.5}, (*dialRow).speed},
	{panes.Dial{Name: "Cable out", Span: 1}, (*dialRow).cable},
	{panes.Dial{Name: "Fish depth", Span: 1}, (*dialRow).depth},
	{panes.Dial{Name: "Heading", Span: 5, Turns: true}, (*dialRow).heading},
	{panes.Dial{Name: "Tension", Span: 50}, (*dialRow).tension},
	{panes.Dial{Name: "Wind", Span: 4}, (*dialRow).wind},
}

func newDialRow(p *post) dialRow {
	r := dialRow{post: p}
	for _, i := range instruments {
		d := i.dial
		r.dials = append(r.dials, &d)
	}
	return r
}

// fill reads the instruments, and once a second adds to the trends.
func (r *dialRow) fill(h *helm) {
	second := int64(r.view.Now)
	for n, i := range instruments {
		d, now := r.dials[n], i.read(r, h)
		d.Value, d.Unit, d.Note, d.State, d.Low, d.High = now.value, now.unit, now.note, now.state, now.low, now.high
		if second == r.second {
			continue
		}
		if d.State == panes.Unknown {
			now.trend = math.NaN()
		}
		d.Push(now.trend)
	}
	r.second = second
}

// calmIf is calm while an instrument answers.
func (r *dialRow) calmIf(valid nav.Set) panes.State { return r.unless(valid, panes.Calm) }

// unless is how something stands while an instrument answers.
func (r *dialRow) unless(valid nav.Set, s panes.State) panes.State {
	if !r.view.Reading.Valid.Has(valid) {
		return panes.Unknown
	}
	return s
}

func (r *dialRow) speed(*helm) gauge {
	kn := r.view.Reading.SpeedOverGround / knot
	ordered := fmt.Sprintf("ordered %.1f", r.view.Bridge.Speed/knot)
	return gauge{fmt.Sprintf("%.1f", kn), "kn", "over ground, " + ordered + "|" + ordered, r.calmIf(nav.Fix), kn, 0, 0}
}

func (r *dialRow) heading(*helm) gauge {
	heading, course := degrees(float64(r.view.Reading.Heading)), degrees(float64(r.view.Reading.Course))
	return gauge{fmt.Sprintf("%03.0f", heading), "° true", fmt.Sprintf("makes good %03.0f°", course), r.calmIf(nav.Heading), heading, 0, 0}
}

func (r *dialRow) off(h *helm) gauge {
	l, reversed := h.measured()
	f, track := &r.view.Fix, l.Track(reversed)
	_, off := track.Offset(f.VesselX, f.VesselY)
	side := "right"
	if off < 0 {
		side = "left"
	}
	fish, _ := track.Offset(f.X, f.Y)
	note := fmt.Sprintf("%s: fish %.0f m short", l.Name, -fish)
	switch {
	case fish >= track.Length():
		note = fmt.Sprintf("%s: fish %.0f m past", l.Name, fish-track.Length())
	case fish >= 0:
		note = fmt.Sprintf("%s: %.0f of %.0f m", l.Name, fish, track.Length())
	}
	return gauge{fmt.Sprintf("%.1f", math.Abs(off)), "m " + side, note, r.unless(nav.Fix, stateOf(r.view.Stands.Off)), off, -r.brief.Score.OffLine, r.brief.Score.OffLine}
}

func (r *dialRow) cable(*helm) gauge {
	out, note := r.view.Reading.CableOut, fmt.Sprintf("ordered %.0f m", r.view.Bridge.CableOrdered)
	if r.view.Bridge.Stalled {
		note = "the winch stalls"
	}
	return gauge{fmt.Sprintf("%.1f", out), "m", note, r.calmIf(nav.CableCounter), out, 0, 0}
}

func (r *dialRow) tension(*helm) gauge {
	pull, note := r.view.Bridge.Tension, "at the sheave"
	if most := r.brief.Tow.Cable.WorkingLoad; most > 0 {
		note = fmt.Sprintf("%.0f %% of working load", 100*pull/most)
	}
	return gauge{fmt.Sprintf("%.0f", pull), "N", note, stateOf(r.view.Stands.Tension), pull, 0, 0}
}

func (r *dialRow) depth(*helm) gauge {
	v := &r.view.Reading
	return gauge{fmt.Sprintf("%.1f", v.FishDepth), "m", fmt.Sprintf("pitch %+.1f°", v.FishPitch*180/math.Pi), r.calmIf(nav.FishDepth), v.FishDepth, 0, 0}
}

func (r *dialRow) height(*helm) gauge {
	v, stands := r.view, &r.view.Stands
	scale := v.Recorder.RangeScale
	share := v.Height / scale
	note := fmt.Sprintf("%.0f %% of range scale", 100*share)
	switch {
	case stands.Height == coach.Unknown:
		note = "no bottom"
	case share > stands.High:
		note = fmt.Sprintf("%s: above %.0f %%", coach.Percent(share, stands.High), 100*stands.High)
	case share < stands.Low:
		note = fmt.Sprintf("%s: below %.0f %%", coach.Percent(share, stands.Low), 100*stands.Low)
	case stands.Height == coach.Past:
		note = "close to the floor"
	}
	return gauge{fmt.Sprintf("%.1f", v.Height), "m", note, stateOf(stands.Height), v.Height, stands.Low * scale, stands.High * scale}
}

func (r *dialRow) wind(*helm) gauge {
	v := &r.view.Reading
	kn, heave := v.TrueWindSpeed/knot, math.Round(10*v.Heave)/10+0
	way := fmt.Sprintf("%03.0f°, heave %+.1f m", degrees(float64(v.TrueWindFrom)), heave)
	return gauge{fmt.Sprintf("%.0f", kn), "kn", "from " + way + "|" + way, r.calmIf(nav.Wind), kn, 0, 0}
}

// stateOf is how a dial shows a grade of the coach.
func stateOf(s coach.Grade) panes.State {
	switch s {
	case coach.Near:
		return panes.Watch
	case coach.Past:
		return panes.Beyond
	case coach.Unknown:
		return panes.Unknown
	}
	return panes.Calm
}

// notCalm says which dials want looking at, and which give no answer; empty if all
// is calm.
func (r *dialRow) notCalm() string {
	var mind, mute []string
	for _, d := range r.dials {
		name := strings.ToLower(d.Name)
		switch d.State {
		case panes.Watch, panes.Beyond:
			mind = append(mind, name)
		case panes.Unknown:
			mute = append(mute, name)
		}
	}
	var says []string
	if len(mind) > 0 {
		says = append(says, "Keep an eye on "+strings.Join(mind, ", ")+".")
	}
	if len(mute) > 0 {
		says = append(says, "No answer from "+strings.Join(mute, ", ")+".")
	}
	return strings.Join(says, " ")
}

// degrees is a bearing in degrees, 0 to 360.
func degrees(rad float64) float64 {
	d := math.Mod(rad*180/math.Pi+360, 360)
	if d >= 359.5 {
		d = 0
	}
	return d
}

// dialsTall is how tall the row of dials is: two small ones over each other.
func dialsTall(l *look.Look) int { return 2*smallTall(l) + max(l.Px(1), 1) }

func smallTall(l *look.Look) int { return int(look.Tall(l.Strong)+look.Tall(l.Small)) + l.Px(6) }

// draw draws the large dials at the left, each a share of the width, and the others in two rows.
func (r *dialRow) draw(dst *ebiten.Image, at image.Rectangle, l *look.Look) {
	const large = 0.23
	gap := max(l.Px(1), 1)
	var small []*panes.Dial
	x := at.Min.X
	for _, d := range r.dials {
		if !d.Large {
			small = append(small, d)
			continue
		}
		cell := image.Rect(x, at.Min.Y, x+int(large*float64(at.Dx())), at.Max.Y)
		d.Draw(dst.SubImage(cell).(*ebiten.Image), cell, l)
		x = cell.Max.X + gap
	}
	columns := (len(small) + 1) / 2
	wide := at.Max.X - x
	for i, d := range small {
		c, row := i%columns, i/columns
		y := at.Min.Y + row*(smallTall(l)+gap)
		cell := image.Rect(x+wide*c/columns, y, x+wide*(c+1)/columns, y+smallTall(l))
		if c > 0 {
			cell.Min.X += gap
		}
		d.Draw(dst.SubImage(cell).(*ebiten.Image), cell, l)
	}
}
