package chart

import (
	"image/color"
	"math"
)

// clipped runs a drawing with everything outside the frame cut off.
func (s *sheet) clipped(draw func()) {
	f := s.frame
	s.dc.DrawRectangle(f.X0, f.Y0, f.X1-f.X0, f.Y1-f.Y0)
	s.dc.Clip()
	draw()
	s.dc.ResetClip()
}

// stroke is how a kind of line is drawn, widths and dashes in pixels of a sheet
// with lettering of 15.
type stroke struct {
	colour color.Color
	width  float64
	dashes []float64
}

var (
	plannedStroke = stroke{white, 1.6, []float64{9, 6}}
	vesselStroke  = stroke{vesselColour, 2.2, nil}
	fishStroke    = stroke{fishColour, 2.2, []float64{2, 4}}
	areaStroke    = stroke{white, 2, []float64{14, 5, 3, 5}}
	pipeStroke    = stroke{pipeColour, 2.4, []float64{12, 3, 2.4, 3}}
)

// run strokes the path just laid, dark casing first so that it shows on any
// ground.
func (s *sheet) run(k stroke) {
	scale := s.unit / 15
	dashes := make([]float64, len(k.dashes))
	for i, d := range k.dashes {
		dashes[i] = d * scale
	}
	s.dc.SetDash(dashes...)
	s.dc.SetLineCapButt()
	s.dc.SetLineWidth((k.width + 1.6) * scale)
	s.dc.SetColor(casing)
	s.dc.StrokePreserve()
	s.dc.SetLineWidth(k.width * scale)
	s.dc.SetColor(k.colour)
	s.dc.Stroke()
	s.dc.SetDash()
}

func (s *sheet) area() {
	if len(s.Area) < 3 {
		return
	}
	s.path(s.Area)
	s.dc.ClosePath()
	s.run(areaStroke)
}

func (s *sheet) plannedLines() {
	for _, l := range s.Lines {
		s.path([]Point{l.A, l.B})
		s.run(plannedStroke)
	}
}

func (s *sheet) pipelines() {
	for _, p := range s.Pipelines {
		s.path(p)
		s.run(pipeStroke)
	}
}

func (s *sheet) tracks() {
	s.path(s.Track)
	s.run(vesselStroke)
	s.path(s.FishTrack)
	s.run(fishStroke)
}

// path lays a path through points, leaving out those too close to be seen
// apart, and starting anew after one that is not finite.
func (s *sheet) path(points []Point) {
	var lastX, lastY float64
	down := false
	for _, p := range points {
		if !finite(p[0], p[1]) {
			down = false
			continue
		}
		x, y := s.x(p[0]), s.y(p[1])
		switch {
		case !down:
			s.dc.MoveTo(x, y)
			down = true
		case math.Hypot(x-lastX, y-lastY) < 0.7:
			continue
		default:
			s.dc.LineTo(x, y)
		}
		lastX, lastY = x, y
	}
}

// marks draws the contacts.
func (s *sheet) marks() {
	for _, c := range s.Contacts {
		if finite(c.X, c.Y) {
			s.mark(c, s.x(c.X), s.y(c.Y))
		}
	}
}

// markRadius is that of a contact's mark, in units of lettering.
const markRadius = 0.55

// mark draws a contact: a disc with an eye when found, a hollow triangle when
// missed, a cross when there is nothing.
func (s *sheet) mark(c Contact, x, y float64) {
	dc, u := s.dc, s.unit
	r := markRadius * u
	switch {
	case c.False:
		arm := 0.75 * r
		dc.DrawLine(x-arm, y-arm, x+arm, y+arm)
		dc.DrawLine(x-arm, y+arm, x+arm, y-arm)
		s.outlined(falseColour, 0.24*u)
	case c.Found:
		dc.DrawCircle(x, y, 0.8*r)
		dc.SetColor(foundColour)
		dc.FillPreserve()
		dc.SetLineWidth(0.2 * u)
		dc.SetColor(ink)
		dc.StrokePreserve()
		dc.SetLineWidth(0.1 * u)
		dc.SetColor(white)
		dc.Stroke()
		dc.DrawCircle(x, y, 0.22*r)
		dc.Fill()
	default:
		dc.DrawRegularPolygon(3, x, y+0.15*r, 0.95*r, 0)
		s.outlined(missedColour, 0.2*u)
	}
}

// outlined strokes the path just laid in a colour with a dark edge.
func (s *sheet) outlined(c color.Color, width float64) {
	s.dc.SetLineCapRound()
	s.dc.SetLineJoinRound()
	s.dc.SetLineWidth(width + 0.16*s.unit)
	s.dc.SetColor(ink)
	s.dc.StrokePreserve()
	s.dc.SetLineWidth(width)
	s.dc.SetColor(c)
	s.dc.Stroke()
}

// labels draws the contacts and writes the names of lines beyond their ends
// and of contacts beside their marks. Ties go under marks, tags over them.
func (s *sheet) labels() {
	u := s.unit
	var anchors []Anchor
	var texts []string
	size := s.bold(0.85)
	for _, l := range s.Lines {
		if l.Name == "" || !finite(l.A[0], l.A[1]) || !finite(l.B[0], l.B[1]) {
			continue
		}
		w, _ := s.dc.MeasureString(l.Name)
		for _, ends := range [...][2]Point{{l.A, l.B}, {l.B, l.A}} {
			x, y := s.x(ends[0][0]), s.y(ends[0][1])
			out := math.Atan2(y-s.y(ends[1][1]), x-s.x(ends[1][0]))
			anchors = append(anchors, Anchor{X: x, Y: y, Radius: 1, W: w + 0.3*u, H: 1.1 * u, Angle: out, Reach: 2.5 * u})
			texts = append(texts, l.Name)
		}
	}
	names := len(anchors)
	small := s.regular(0.85)
	for _, c := range s.Contacts {
		if !finite(c.X, c.Y) {
			continue
		}
		w, _ := s.dc.MeasureString(c.Label)
		a := Anchor{X: s.x(c.X), Y: s.y(c.Y), Radius: markRadius * u, W: w + 0.6*u, H: 1.25 * u}
		if c.Label == "" {
			a.W, a.H, a.Reach = 0, 0, 1 // its mark alone must stay clear
		}
		anchors = append(anchors, a)
		texts = append(texts, c.Label)
	}
	boxes := PlaceLabels(s.frame.Grow(-0.3*u), anchors, nil)
	s.bold(0.85)
	for i, b := range boxes[:names] {
		if !b.Empty() {
			s.haloed(texts[i], size, b)
		}
	}
	for i, b := range boxes[names:] {
		if !b.Empty() {
			s.tie(anchors[names+i], b)
		}
	}
	s.marks()
	s.regular(0.85)
	for i, b := range boxes[names:] {
		if !b.Empty() {
			s.tag(texts[names+i], small, b)
		}
	}
}

func (s *sheet) haloed(text string, size float64, b Rect) {
	x, y := (b.X0+b.X1)/2, (b.Y0+b.Y1)/2
	d := 0.12 * s.unit
	s.dc.SetColor(water)
	for _, o := range [...]Point{{-d, 0}, {d, 0}, {0, -d}, {0, d}, {-d, -d}, {d, -d}, {-d, d}, {d, d}} {
		s.write(text, size, x+o[0], y+o[1], 0.5)
	}
	s.dc.SetColor(ink)
	s.write(text, size, x, y, 0.5)
}

// tie draws a line from a mark to its label where the two are not neighbours.
func (s *sheet) tie(a Anchor, b Rect) {
	nearX, nearY := min(max(a.X, b.X0), b.X1), min(max(a.Y, b.Y0), b.Y1)
	if d := math.Hypot(nearX-a.X, nearY-a.Y); d > a.Radius+0.8*s.unit {
		s.dc.DrawLine(a.X, a.Y, nearX, nearY)
		s.outlined(white, 1)
	}
}

// tag writes a label on a slip of paper.
func (s *sheet) tag(text string, size float64, b Rect) {
	s.dc.DrawRoundedRectangle(b.X0, b.Y0, b.X1-b.X0, b.Y1-b.Y0, 0.2*s.unit)
	s.dc.SetRGBA255(0xf6, 0xf4, 0xef, 0xf0)
	s.dc.FillPreserve()
	s.dc.SetLineWidth(1)
	s.dc.SetColor(casing)
	s.dc.Stroke()
	s.dc.SetColor(ink)
	s.write(text, size, (b.X0+b.X1)/2, (b.Y0+b.Y1)/2, 0.5)
}
