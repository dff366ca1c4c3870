package picture

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"git.sr.ht/~sbinet/gg"
)

var (
	paper   = color.RGBA{0xf6, 0xf4, 0xef, 0xff}
	ink     = color.RGBA{0x22, 0x26, 0x2a, 0xff}
	faint   = color.RGBA{0x63, 0x68, 0x6c, 0xff}
	unheard = color.RGBA{0xd5, 0xd9, 0xdc, 0xff}
	trace   = color.RGBA{0xff, 0x8c, 0x1a, 0xff}
	gridOn  = color.NRGBA{0xff, 0xff, 0xff, 0x38}
)

// sheet is a waterfall being drawn.
type sheet struct {
	Waterfall
	layout
	dc  *gg.Context
	img *image.RGBA
}

func (s *sheet) colour(means []float64, heard bool, j int) color.RGBA {
	if !heard {
		return unheard
	}
	return s.Ramp[uint8(math.Round(means[j]))]
}

// write puts a line of text with its middle height at y; ax is 0 to start at
// x, 0.5 to centre on it, 1 to end there.
func (s *sheet) write(text string, x, y, ax float64) {
	s.dc.DrawStringAnchored(text, x, y+0.36*s.unit, ax, 0)
}

func (s *sheet) header() {
	dc, u := s.dc, s.unit
	left, right := float64(s.plot.Min.X), float64(s.plot.Max.X)
	key := 9 * u // width of the colour key and its words
	dc.SetColor(ink)
	dc.SetFontFace(Bold(1.35 * u))
	dc.DrawString(shorten(dc, s.Title, right-left-key-u), left, 1.9*u)
	dc.SetFontFace(Regular(u))
	dc.SetColor(faint)
	dc.DrawString(shorten(dc, s.subtitle(), right-left), left, 3.5*u)

	top, bar := 1.0*u, 0.7*u
	for x := range int(key) {
		dc.SetColor(s.Ramp[min(255, x*256/int(key))])
		dc.DrawRectangle(math.Round(right-key)+float64(x), top, 1, bar)
		dc.Fill()
	}
	dc.SetFontFace(Regular(0.8 * u))
	dc.SetColor(faint)
	dc.DrawString("weak", right-key, top+bar+0.85*u)
	dc.DrawStringAnchored("strong", right, top+bar+0.85*u, 1, 0)
}

// rangeAxis draws ticks and labels above and below the plot, both ways from
// nadir, and faint lines of equal range between them.
func (s *sheet) rangeAxis() {
	dc, u := s.dc, s.unit
	nadir := float64(s.plot.Min.X + s.half)
	top, bottom := float64(s.plot.Min.Y), float64(s.plot.Max.Y)
	perMetre := float64(s.half) / s.RangeScale
	step := NiceStep(3.8 * u / perMetre)
	dc.SetFontFace(Regular(0.9 * u))
	dc.SetLineWidth(1)
	for _, r := range Ticks(nil, 0, s.RangeScale, step) {
		for _, outwards := range [...]float64{-1, 1} {
			x := nadir + outwards*r*perMetre
			snapped := math.Floor(x) + 0.5
			if r < s.RangeScale {
				dc.SetColor(gridOn)
				dc.DrawLine(snapped, top, snapped, bottom)
				dc.Stroke()
			}
			dc.SetColor(ink)
			dc.DrawLine(snapped, top-0.4*u, snapped, top)
			dc.DrawLine(snapped, bottom, snapped, bottom+0.4*u)
			dc.Stroke()
			label := FormatTick(r, step) + " m"
			s.write(label, x, top-0.95*u, 0.5)
			s.write(label, x, bottom+1.0*u, 0.5)
			if r == 0 {
				break
			}
		}
	}
	dc.SetFontFace(Bold(0.9 * u))
	s.write("PORT", float64(s.plot.Min.X)+0.25*float64(s.half), bottom+2.35*u, 0.5)
	s.write("STARBOARD", float64(s.plot.Max.X)-0.25*float64(s.half), bottom+2.35*u, 0.5)
	dc.SetFontFace(Regular(0.9 * u))
	dc.SetColor(faint)
	s.write("slant range", nadir, bottom+2.35*u, 0.5)
	dc.SetColor(ink)
	dc.DrawRectangle(float64(s.plot.Min.X)-0.5, top-0.5, float64(s.plot.Dx())+1, float64(s.plot.Dy())+1)
	dc.Stroke()
}

// sideAxes labels distance (or pings) at the left edge and time at the right.
func (s *sheet) sideAxes() {
	along, unit := s.AlongTrack, " m"
	if alongSpan(along) == 0 {
		along, unit = make([]float64, s.pings()), ""
		for i := range along {
			along[i] = float64(i + 1)
		}
	}
	left, right := float64(s.plot.Min.X), float64(s.plot.Max.X)
	what := "along"
	if unit == "" {
		what = "ping"
	}
	s.sideAxis(along, left, -1, 1, what, func(v, step float64) string { return FormatTick(v, step) + unit })
	if len(s.Times) > 0 {
		s.sideAxis(s.Times, right, 1, 0, "time", func(v, _ float64) string { return clock(v) })
	}
}

func (s *sheet) sideAxis(values []float64, x, outwards, ax float64, what string, label func(v, step float64) string) {
	dc, u := s.dc, s.unit
	dc.SetFontFace(Regular(0.9 * u))
	dc.SetLineWidth(1)
	lo, hi := values[0], values[len(values)-1]
	if !(hi > lo) || math.IsInf(hi-lo, 1) {
		return
	}
	step := NiceStep((hi - lo) / float64(s.plot.Dy()) * 3.5 * u)
	if what == "time" {
		step = clockStep(step)
	}
	for _, v := range Ticks(nil, lo, hi, step) {
		y, ok := s.yOf(values, v)
		if !ok {
			continue
		}
		dc.SetColor(ink)
		snapped := math.Floor(y) + 0.5
		dc.DrawLine(x, snapped, x+outwards*0.4*u, snapped)
		dc.Stroke()
		s.write(label(v, step), x+outwards*0.7*u, y, ax)
	}
	dc.SetColor(faint)
	s.write(what, x+outwards*0.7*u, float64(s.plot.Max.Y)+2.35*u, ax)
}

// yOf returns the height in the picture at which a growing series reaches v.
func (s *sheet) yOf(values []float64, v float64) (float64, bool) {
	for i := range min(len(values)-1, s.pings()-1) {
		a, b := values[i], values[i+1]
		if a <= v && v <= b {
			ping := float64(i) + 0.5
			if b > a {
				ping += (v - a) / (b - a)
			}
			return float64(s.plot.Max.Y) - ping*float64(s.plot.Dy())/float64(s.pings()), true
		}
	}
	return 0, false
}

// clockStep returns the first step of time, in seconds, that reads well on a
// clock and is not below step.
func clockStep(step float64) float64 {
	for _, nice := range [...]float64{1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600} {
		if nice >= step {
			return nice
		}
	}
	return 3600 * NiceStep(step/3600)
}

// clock returns seconds as h:mm:ss.
func clock(seconds float64) string {
	sign := ""
	if seconds < 0 {
		sign, seconds = "-", -seconds
	}
	n := int64(math.Round(seconds))
	return fmt.Sprintf("%s%d:%02d:%02d", sign, n/3600, n/60%60, n%60)
}

func (s *sheet) empty() {
	r := s.plot
	s.dc.SetColor(unheard)
	s.dc.DrawRectangle(float64(r.Min.X), float64(r.Min.Y), float64(r.Dx()), float64(r.Dy()))
	s.dc.Fill()
	s.dc.SetColor(ink)
	s.dc.SetFontFace(Regular(s.unit))
	s.write("no pings", float64(r.Min.X+r.Max.X)/2, float64(r.Min.Y+r.Max.Y)/2, 0.5)
}

func (s *sheet) caution() {
	width, height := float64(s.img.Rect.Dx()), float64(s.height)
	s.dc.SetColor(ink)
	s.dc.DrawRectangle(0, height-float64(s.strip), width, float64(s.strip))
	s.dc.Fill()
	s.dc.SetColor(paper)
	s.dc.SetFontFace(Regular(0.95 * s.unit))
	s.write(Caution, width/2, height-float64(s.strip)/2, 0.5)
}

// shorten cuts a text to a width, marking the cut.
func shorten(dc *gg.Context, text string, width float64) string {
	if w, _ := dc.MeasureString(text); w <= width {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		cut := string(runes[:n]) + "…"
		if w, _ := dc.MeasureString(cut); w <= width {
			return cut
		}
	}
	return ""
}
