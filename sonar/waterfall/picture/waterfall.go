package picture

import (
	"fmt"
	"image"
	"math"
	"strings"

	"git.sr.ht/~sbinet/gg"
)

// Waterfall is one sonar channel along a line. Rows run from nadir outwards,
// the first ping first; an empty row is a ping not heard. Series that may be
// nil hold one value per ping.
type Waterfall struct {
	Title   string
	Channel string // such as "455 kHz"

	RangeScale      float64   // slant range of the last sample of a row, one side, m
	Port, Starboard [][]uint8 // levelled grey
	BottomTrack     []float64 // slant range of the first bottom return, m; nil: no trace
	Times           []float64 // s; nil: no times at the right edge
	AlongTrack      []float64 // from the start of the line, m, growing; nil: pings instead

	Ramp *Ramp // nil: Kelp
}

// The smallest picture [Draw] can lay out.
const (
	MinWidth  = 480
	MinHeight = 320
)

// pings returns the number of pings of the longer side.
func (w Waterfall) pings() int { return max(len(w.Port), len(w.Starboard)) }

// Draw draws the waterfall as wide as maxWidth and no higher than maxHeight,
// both in pixels and at least [MinWidth] and [MinHeight]. Along the track it
// takes the scale it has across, so that shapes are true, and where that does
// not fit in maxHeight the line is squeezed and the picture says by how much.
func Draw(w Waterfall, maxWidth, maxHeight int) *image.RGBA {
	if maxWidth < MinWidth || maxHeight < MinHeight {
		panic("picture: waterfall smaller than MinWidth by MinHeight")
	}
	if w.Ramp == nil {
		w.Ramp = Kelp()
	}
	l := layOut(w, maxWidth, maxHeight)
	img := image.NewRGBA(image.Rect(0, 0, maxWidth, l.height))
	dc := gg.NewContextForRGBA(img)
	dc.SetColor(paper)
	dc.Clear()

	s := sheet{Waterfall: w, layout: l, dc: dc, img: img}
	s.header()
	if w.pings() == 0 || !(w.RangeScale > 0) || math.IsInf(w.RangeScale, 1) {
		s.empty()
	} else {
		s.rows()
		s.bottomTrack()
		s.rangeAxis()
		s.sideAxes()
	}
	s.caution()
	return img
}

// layout is where things stand, in pixels. The plot is split at nadir into two
// halves of equal width.
type layout struct {
	unit          float64 // size of ordinary lettering
	height        int
	plot          image.Rectangle
	half          int     // width of one side
	squeeze       float64 // scale across over scale along; 0: unknown
	header, strip int     // heights of the bands at top and bottom
}

func layOut(w Waterfall, width, maxHeight int) layout {
	unit := min(max(float64(width)/75, 11), 20)
	px := func(lines float64) int { return int(math.Round(lines * unit)) }
	l := layout{unit: unit, header: px(4.2), strip: px(2)}
	margin := px(5)
	l.half = (width - 2*margin) / 2
	top, bottom := l.header+px(1.9), px(3.4)+l.strip
	room := maxHeight - top - bottom

	rows := w.pings() // a pixel each, where distance is not known
	if span := alongSpan(w.AlongTrack); span > 0 && w.RangeScale > 0 {
		natural := span / w.RangeScale * float64(l.half)
		rows = int(math.Ceil(min(natural, float64(room))))
		l.squeeze = natural / float64(max(rows, px(6)))
	}
	rows = min(max(rows, px(6)), room)
	l.plot = image.Rect(margin, top, margin+2*l.half, top+rows)
	l.height = top + rows + bottom
	return l
}

// alongSpan returns the metres a line covers, counting half a ping's advance
// beyond its first and last ping; 0 when not known.
func alongSpan(along []float64) float64 {
	n := len(along)
	if n < 2 {
		return 0
	}
	span := (along[n-1] - along[0]) * float64(n) / float64(n-1)
	if !(span > 0) || math.IsInf(span, 1) {
		return 0
	}
	return span
}

// pingsAt returns the stretch of pings that the pixel row y shows.
func (s *sheet) pingsAt(y int) (lo, hi float64) {
	perRow := float64(s.pings()) / float64(s.plot.Dy())
	return float64(s.plot.Max.Y-y-1) * perRow, float64(s.plot.Max.Y-y) * perRow
}

// rows paints the echoes.
func (s *sheet) rows() {
	port, starboard := newSide(s.Port, s.half), newSide(s.Starboard, s.half)
	nadir := s.plot.Min.X + s.half
	for y := s.plot.Min.Y; y < s.plot.Max.Y; y++ {
		lo, hi := s.pingsAt(y)
		p, heardPort := port.mean(lo, hi)
		st, heardStarboard := starboard.mean(lo, hi)
		for j := range s.half {
			s.img.SetRGBA(nadir-1-j, y, s.colour(p, heardPort, j))
			s.img.SetRGBA(nadir+j, y, s.colour(st, heardStarboard, j))
		}
	}
}

// bottomTrack draws the trace of the first bottom return on both sides.
func (s *sheet) bottomTrack() {
	nadir := float64(s.plot.Min.X + s.half)
	for _, outwards := range [...]float64{-1, 1} {
		down := false
		for y := s.plot.Min.Y; y < s.plot.Max.Y; y++ {
			lo, hi := s.pingsAt(y)
			r, ok := meanOf(s.BottomTrack, lo, hi)
			if !ok || r <= 0 || r > s.RangeScale {
				down = false
				continue
			}
			x := nadir + outwards*r/s.RangeScale*float64(s.half)
			if down {
				s.dc.LineTo(x, float64(y)+0.5)
			} else {
				s.dc.MoveTo(x, float64(y)+0.5)
			}
			down = true
		}
	}
	s.dc.SetLineWidth(max(1, s.unit/13))
	s.dc.SetColor(trace)
	s.dc.Stroke()
}

// subtitle tells the channel, the range scale and the scale along the track.
func (s *sheet) subtitle() string {
	parts := []string{}
	if s.Channel != "" {
		parts = append(parts, s.Channel)
	}
	parts = append(parts, fmt.Sprintf("range scale %g m a side", s.RangeScale), fmt.Sprintf("%d pings", s.pings()))
	switch {
	case s.squeeze > 1.05:
		parts = append(parts, fmt.Sprintf("along the track squeezed %.1f times", s.squeeze))
	case s.squeeze > 0 && s.squeeze < 0.95:
		parts = append(parts, fmt.Sprintf("along the track stretched %.1f times", 1/s.squeeze))
	case s.squeeze > 0:
		parts = append(parts, "same scale along as across")
	}
	return strings.Join(parts, "  ·  ")
}
