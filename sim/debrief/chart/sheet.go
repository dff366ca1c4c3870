package chart

import (
	"image"
	"image/color"

	"git.sr.ht/~sbinet/gg"

	"dryline/sonar/waterfall/picture"
)

// The colours of lines and marks are told apart by the common kinds of colour
// blindness: M. Okabe and K. Ito, "Color Universal Design" (2008).
var (
	paper  = color.RGBA{0xf6, 0xf4, 0xef, 0xff}
	water  = color.RGBA{0xdc, 0xe4, 0xe8, 0xff}
	ink    = color.RGBA{0x22, 0x26, 0x2a, 0xff}
	faint  = color.RGBA{0x5c, 0x62, 0x66, 0xff}
	rule   = color.RGBA{0xc4, 0xc4, 0xbf, 0xff}
	white  = color.RGBA{0xff, 0xff, 0xff, 0xff}
	casing = color.NRGBA{0x14, 0x18, 0x1c, 0xb0}

	vesselColour = color.RGBA{0xe6, 0x9f, 0x00, 0xff} // orange
	fishColour   = color.RGBA{0x56, 0xb4, 0xe9, 0xff} // sky blue
	foundColour  = color.RGBA{0xd5, 0x5e, 0x00, 0xff} // vermillion
	missedColour = color.RGBA{0xf0, 0xe4, 0x42, 0xff} // yellow
	falseColour  = color.RGBA{0xcc, 0x79, 0xa7, 0xff} // reddish purple
	pipeColour   = falseColour                        // nautical charts have pipelines in magenta (IHO S-4, B-444, from memory)
)

// sheet is a chart being drawn.
type sheet struct {
	Chart
	layout
	dc  *gg.Context
	img *image.RGBA
}

// write puts a line of text in the face last set, of the given size, with the
// middle of its capitals at y; ax is 0 to start at x, 0.5 to centre on it, 1 to
// end there.
func (s *sheet) write(text string, size, x, y, ax float64) {
	s.dc.DrawStringAnchored(text, x, y+0.36*size, ax, 0)
}

func (s *sheet) regular(scale float64) float64 {
	s.dc.SetFontFace(picture.Regular(scale * s.unit))
	return scale * s.unit
}

func (s *sheet) bold(scale float64) float64 {
	s.dc.SetFontFace(picture.Bold(scale * s.unit))
	return scale * s.unit
}

func (s *sheet) header() {
	u := s.unit
	room := s.width - 2*outerMargin*u
	s.dc.SetColor(ink)
	s.bold(1.6)
	s.dc.DrawString(s.shorten(s.Title, room), outerMargin*u, 2.2*u)
	s.regular(1.05)
	s.dc.SetColor(faint)
	s.dc.DrawString(s.shorten(s.Subtitle, room), outerMargin*u, 4*u)
}

func (s *sheet) caution() {
	u := s.unit
	s.dc.SetColor(ink)
	s.dc.DrawRectangle(0, s.height-stripHeight*u, s.width, stripHeight*u)
	s.dc.Fill()
	s.dc.SetColor(paper)
	size := s.regular(1)
	s.write(picture.Caution, size, s.width/2, s.height-stripHeight*u/2, 0.5)
}

// shorten cuts a text to a width, marking the cut.
func (s *sheet) shorten(text string, width float64) string {
	if w, _ := s.dc.MeasureString(text); w <= width {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		cut := string(runes[:n]) + "…"
		if w, _ := s.dc.MeasureString(cut); w <= width {
			return cut
		}
	}
	return ""
}
