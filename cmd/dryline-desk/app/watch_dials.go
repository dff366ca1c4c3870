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

func newDials() []*panes.Dial {
	// The least spans are what an instrument's noise keeps well within: our own
	// choice.
	return []*panes.Dial{
		{Name: "Speed", Span: 0.5},
		{Name: "Heading", Span: 5, Turns: true},
		{Name: "Off line", Span: 2},
		{Name: "Cable out", Span: 1},
		{Name: "Tension", Span: 50},
		{Name: "Fish depth", Span: 1},
		{Name: "Fish height", Span: 1},
		{Name: "Wind", Span: 4},
	}
}

const (
	dialSpeed = iota
	dialHeading
	dialOff
	dialCable
	dialTension
	dialDepth
	dialHeight
	dialWind
)

// fillDials reads the instruments, and once a second adds to the trends.
func (w *Watch) fillDials() {
	v := w.view
	r, f, b := &v.Reading, &v.Fix, &v.Bridge
	set := func(n int, value, unit, note string, state panes.State) *panes.Dial {
		d := w.dials[n]
		d.Value, d.Unit, d.Note, d.State = value, unit, note, state
		return d
	}
	unless := func(valid nav.Set, s panes.State) panes.State {
		if !r.Valid.Has(valid) {
			return panes.Unknown
		}
		return s
	}
	trends := map[int]float64{}
	kn := r.SpeedOverGround / knot
	set(dialSpeed, fmt.Sprintf("%.1f", kn), "kn", fmt.Sprintf("over ground, ordered %.1f", b.Speed/knot), unless(nav.Fix, panes.Calm))
	trends[dialSpeed] = kn
	heading, course := degrees(float64(r.Heading)), degrees(float64(r.Course))
	set(dialHeading, fmt.Sprintf("%03.0f", heading), "° true", fmt.Sprintf("makes good %03.0f°", course), unless(nav.Heading, panes.Calm))
	trends[dialHeading] = heading

	// Off the line that is logged, not one chosen to be run next.
	line, reversed := w.line, w.reversed
	if b.Logging != "" {
		line, reversed = w.lineNamed(b.Logging), b.Reversed
	}
	l := w.exercise.Lines[line]
	track := l.Track(reversed)
	_, off := track.Offset(f.VesselX, f.VesselY)
	side := "right"
	if off < 0 {
		side = "left"
	}
	fishAlong, _ := track.Offset(f.X, f.Y)
	note := fmt.Sprintf("%s: fish %.0f m short", l.Name, -fishAlong)
	switch {
	case fishAlong >= track.Length():
		note = fmt.Sprintf("%s: fish %.0f m past", l.Name, fishAlong-track.Length())
	case fishAlong >= 0:
		note = fmt.Sprintf("%s: fish at %.0f of %.0f m", l.Name, fishAlong, track.Length())
	}
	set(dialOff, fmt.Sprintf("%.1f", math.Abs(off)), "m "+side, note, unless(nav.Fix, standing(v.Stands.Off)))
	trends[dialOff] = off

	note = fmt.Sprintf("ordered %.0f m", b.CableOrdered)
	if b.Stalled {
		note = "the winch stalls"
	}
	set(dialCable, fmt.Sprintf("%.1f", r.CableOut), "m", note, unless(nav.CableCounter, panes.Calm))
	trends[dialCable] = r.CableOut

	working := w.exercise.Tow.Cable.WorkingLoad
	note = "at the sheave"
	if working > 0 {
		note = fmt.Sprintf("%.0f %% of working load", 100*b.Tension/working)
	}
	set(dialTension, fmt.Sprintf("%.0f", b.Tension), "N", note, standing(v.Stands.Tension))
	trends[dialTension] = b.Tension

	set(dialDepth, fmt.Sprintf("%.1f", r.FishDepth), "m", fmt.Sprintf("pitch %+.1f°", r.FishPitch*180/math.Pi), unless(nav.FishDepth, panes.Calm))
	trends[dialDepth] = r.FishDepth

	scale := v.Recorder.RangeScale
	share := v.Height / scale
	low, high := v.Stands.Low, v.Stands.High
	note = fmt.Sprintf("%.0f %% of range scale", 100*share)
	switch {
	case v.Stands.Height == coach.Unknown:
		note = "no bottom"
	case share > high:
		note = fmt.Sprintf("%s: above %.0f %%", coach.Percent(share, high), 100*high)
	case share < low:
		note = fmt.Sprintf("%s: below %.0f %%", coach.Percent(share, low), 100*low)
	case v.Stands.Height == coach.Past:
		note = "close to the floor"
	}
	set(dialHeight, fmt.Sprintf("%.1f", v.Height), "m", note, standing(v.Stands.Height))
	trends[dialHeight] = v.Height

	set(dialWind, fmt.Sprintf("%.0f", r.TrueWindSpeed/knot), "kn", fmt.Sprintf("from %03.0f°, heave %+.1f m", degrees(float64(r.TrueWindFrom)), math.Round(10*r.Heave)/10+0), unless(nav.Wind, panes.Calm))
	trends[dialWind] = r.TrueWindSpeed / knot

	if second := int64(v.Now); second != w.dialled {
		w.dialled = second
		for n, d := range w.dials {
			if d.State == panes.Unknown {
				trends[n] = math.NaN()
			}
			d.Push(trends[n])
		}
	}
}

// standing is how a dial shows how something stands.
func standing(s coach.Standing) panes.State {
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
func (w *Watch) notCalm() string {
	var mind, mute []string
	for _, d := range w.dials {
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

func (w *Watch) drawDials(dst *ebiten.Image, l *look.Look) {
	n := len(w.dials)
	r := w.at.dials
	for i, d := range w.dials {
		x0, x1 := r.Min.X+r.Dx()*i/n, r.Min.X+r.Dx()*(i+1)/n
		if i > 0 {
			x0 += max(l.Px(1), 1)
		}
		cell := image.Rect(x0, r.Min.Y, x1, r.Max.Y)
		d.Draw(dst.SubImage(cell).(*ebiten.Image), cell, l)
	}
}
