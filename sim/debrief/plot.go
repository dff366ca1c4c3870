package debrief

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// linePlots are the plots of one line, along it: height, off line, and the errors of the
// layback and of the swath's bearing.
type linePlots struct {
	Name     string
	Reversed bool
	Plots    []plot
}

// plot is a small picture in SVG units, x to the right and y down.
type plot struct {
	Title, Unit, Summary string // Summary is for those who cannot see it
	Wide, High           float64
	Left, Right          float64 // of the frame
	Top, Bottom          float64
	HasBand              bool
	BandTop, BandHigh    float64 // the wanted band, cut to the frame
	Across, Up           []tick
	Curves               []curve

	x0, x1, y0, y1 float64 // values at the edges of the frame
}

type tick struct {
	At    float64
	Label string
}

// curve is one line of a plot. Dashes tell it apart without colour.
type curve struct {
	Name   string
	Dashed bool
	Dotted bool
	Points string
	KeyAt  float64 // x of its entry in the key
}

// Places of the lettering, for the page.

func (p plot) FrameWide() float64 { return p.Right - p.Left }
func (p plot) LabelX() float64    { return p.Left - 6 }
func (p plot) LabelY() float64    { return p.Bottom + 13 }
func (p plot) UnitY() float64     { return p.Bottom + 26 }
func (c curve) KeyEnd() float64   { return c.KeyAt + 20 }
func (c curve) KeyText() float64  { return c.KeyAt + 25 }

// Size of a plot in SVG units.
const (
	plotWide   = 560.0
	plotHigh   = 168.0
	plotLeft   = 40.0
	plotRight  = plotWide - 14
	plotTop    = 30.0
	plotBottom = plotHigh - 30
)

func plotLine(r *Report, l *Line) linePlots {
	s, wanted := &l.Series, &r.Wanted
	top := max(25, wanted.AltitudeMax*1.25)
	for _, v := range s.Altitude {
		top = max(top, v*1.05)
	}
	height := newPlot("Height of the fish", "% of range scale", l.Length, s.Along, 0, top)
	height.band(wanted.AltitudeMin, wanted.AltitudeMax)
	height.draw("fish, true", false, s.Along, s.Altitude)
	if g := l.Model; g != nil {
		height.draw("the mate's run", true, g.Along, g.Altitude)
	}
	height.Summary = fmt.Sprintf("Height of the fish along %s, wanted between %g and %g percent of the range scale.",
		l.Name, wanted.AltitudeMin, wanted.AltitudeMax)

	reach := 2.0
	if wanted.OffLine != nil {
		reach = max(reach, *wanted.OffLine*1.6)
	}
	for i := range s.OffLine {
		reach = max(reach, 1.05*math.Abs(s.OffLine[i]), 1.05*math.Abs(s.FishOff[i]))
	}
	off := newPlot("Off line", "m, + to the right of it", l.Length, s.Along, -reach, reach)
	off.Summary = fmt.Sprintf("Distance of the vessel and the fish off %s.", l.Name)
	if wanted.OffLine != nil {
		off.band(-*wanted.OffLine, *wanted.OffLine)
	}
	off.draw("vessel, by the desk", false, s.Along, s.OffLine)
	off.draw("fish, true", true, s.Along, s.FishOff)
	if g := l.Model; g != nil {
		off.draw("the mate's fish", false, g.Along, g.FishOff)
		off.Curves[len(off.Curves)-1].Dotted = true
	}
	plots := []plot{height, off}
	for _, e := range []struct {
		title, unit, name string
		values            []float64
		least             float64
	}{
		{"Layback error", "m, − too far astern", "fish of the desk less the true one, along the line", s.Ahead, 4},
		{"Swath askew", "degrees, + clockwise", "bearing of the swath less the fish's true heading", s.Askew, 4},
	} {
		if len(e.values) != len(s.Along) {
			continue // not told of
		}
		top := e.least
		for _, v := range e.values {
			top = max(top, 1.05*math.Abs(v))
		}
		p := newPlot(e.title, e.unit, l.Length, s.Along, -top, top)
		p.Summary = fmt.Sprintf("%s on %s: %s.", e.title, l.Name, e.name)
		p.draw("desk less truth", false, s.Along, e.values)
		plots = append(plots, p)
	}
	return linePlots{Name: l.Name, Reversed: l.Reversed, Plots: plots}
}

// newPlot is an empty plot over the whole of a line, and over what was logged
// beyond it.
func newPlot(title, unit string, length float64, along []float64, y0, y1 float64) plot {
	p := plot{
		Title: title, Unit: unit, Wide: plotWide, High: plotHigh,
		Left: plotLeft, Right: plotRight, Top: plotTop, Bottom: plotBottom,
		x0: 0, x1: length, y0: y0, y1: y1,
	}
	for _, v := range along {
		p.x0, p.x1 = min(p.x0, v), max(p.x1, v)
	}
	if p.x1-p.x0 < 1 {
		p.x1 = p.x0 + 1
	}
	for _, v := range ticks(p.x0, p.x1, 7) {
		p.Across = append(p.Across, tick{p.x(v), number(0, v)})
	}
	step := ticks(y0, y1, 4)
	decimals := 0
	if len(step) > 1 && step[1]-step[0] < 1 {
		decimals = 1
	}
	for _, v := range step {
		p.Up = append(p.Up, tick{p.y(v), number(decimals, v)})
	}
	return p
}

func (p *plot) x(v float64) float64 {
	return tenth(plotLeft + (v-p.x0)/(p.x1-p.x0)*(plotRight-plotLeft))
}

func (p *plot) y(v float64) float64 {
	return tenth(plotBottom - (v-p.y0)/(p.y1-p.y0)*(plotBottom-plotTop))
}

func tenth(v float64) float64 { return math.Round(v*10) / 10 }

// band shades what was wanted.
func (p *plot) band(low, high float64) {
	p.HasBand = true
	p.BandTop = p.y(min(high, p.y1))
	p.BandHigh = tenth(p.y(max(low, p.y0)) - p.BandTop)
}

func (p *plot) draw(name string, dashed bool, x, y []float64) {
	var b strings.Builder
	for i := range x {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(strconv.FormatFloat(p.x(x[i]), 'f', -1, 64))
		b.WriteByte(',')
		b.WriteString(strconv.FormatFloat(p.y(y[i]), 'f', -1, 64))
	}
	const keyWide = 150.0
	for i := range p.Curves {
		p.Curves[i].KeyAt -= keyWide
	}
	p.Curves = append(p.Curves, curve{Name: name, Dashed: dashed, Points: b.String(), KeyAt: plotRight - keyWide + 16})
}

// ticks are round values between lo and hi: about n of them, a 1, 2 or 5 of
// some power of ten apart.
func ticks(lo, hi float64, n int) []float64 {
	rough := (hi - lo) / float64(n)
	step := math.Pow(10, math.Floor(math.Log10(rough)))
	switch f := rough / step; {
	case f > 5:
		step *= 10
	case f > 2:
		step *= 5
	case f > 1:
		step *= 2
	}
	var out []float64
	for k := math.Ceil(lo/step - 1e-9); k*step <= hi+1e-9*step; k++ {
		out = append(out, k*step+0) // + 0: no negative zero
	}
	return out
}
