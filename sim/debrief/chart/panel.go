package chart

import (
	"fmt"
	"math"

	"dryline/sonar/waterfall/picture"
)

// panel draws the legend, the scale and north, and the notes: one under the
// other beside the map, or in columns below it.
func (s *sheet) panel() {
	p, u := s.side, s.unit
	if s.columns {
		gap := 2.5 * u
		wide := (p.X1 - p.X0 - 2*gap)
		x := p.X0
		s.legend(Rect{x, p.Y0, x + 0.3*wide, p.Y1})
		x += 0.3*wide + gap
		s.bearings(Rect{x, p.Y0, x + 0.32*wide, p.Y1})
		x += 0.32*wide + gap
		s.notes(Rect{x, p.Y0, p.X1, p.Y1})
		return
	}
	y := s.legend(p)
	y = s.bearings(Rect{p.X0, y + u, p.X1, p.Y1})
	s.notes(Rect{p.X0, y + u, p.X1, p.Y1})
}

// heading writes the title of a block with a rule under it and returns where
// the block goes on.
func (s *sheet) heading(text string, r Rect) float64 {
	u := s.unit
	s.dc.SetColor(ink)
	size := s.bold(1)
	s.write(text, size, r.X0, r.Y0+0.5*u, 0)
	s.dc.SetColor(rule)
	s.dc.SetLineWidth(1)
	s.dc.DrawLine(r.X0, r.Y0+1.4*u, r.X1, r.Y0+1.4*u)
	s.dc.Stroke()
	return r.Y0 + 2.3*u
}

// entry is a line of the legend; draw paints its sample from x0 to x1 at y.
type entry struct {
	text string
	draw func(x0, x1, y float64)
}

func (s *sheet) entries() []entry {
	var list []entry
	line := func(show bool, text string, k stroke) {
		if show {
			list = append(list, entry{text, func(x0, x1, y float64) {
				s.dc.DrawLine(x0, y, x1, y)
				s.run(k)
			}})
		}
	}
	line(len(s.Lines) > 0, "Planned line", plannedStroke)
	line(len(s.Track) > 0, "Vessel track", vesselStroke)
	line(len(s.FishTrack) > 0, "Fish track", fishStroke)
	line(len(s.Area) > 2, "Area to cover", areaStroke)
	line(len(s.Pipelines) > 0, "Pipeline", pipeStroke)

	var found, missed, nothing int
	for _, c := range s.Contacts {
		switch {
		case c.False:
			nothing++
		case c.Found:
			found++
		default:
			missed++
		}
	}
	mark := func(n int, text string, c Contact) {
		if n > 0 {
			list = append(list, entry{fmt.Sprintf("%s (%d)", text, n), func(x0, x1, y float64) {
				s.mark(c, (x0+x1)/2, y)
			}})
		}
	}
	asMarked := "Object found"
	if missed+nothing == 0 { // nothing is said of the truth
		asMarked = "Contact marked"
	}
	mark(found, asMarked, Contact{Found: true})
	mark(missed, "Object missed", Contact{})
	mark(nothing, "Mark with no object", Contact{False: true})
	list = append(list, s.groundEntries()...)
	if s.Mosaic != nil {
		list = append(list, entry{"Echo, weak to strong", func(x0, x1, y float64) {
			n := int(x1 - x0)
			for i := range n {
				s.dc.SetColor(s.Ramp[i*255/max(n-1, 1)])
				s.dc.DrawRectangle(math.Floor(x0)+float64(i), math.Round(y-0.35*s.unit), 1, math.Round(0.7*s.unit))
				s.dc.Fill()
			}
		}}, entry{"No data", func(x0, x1, y float64) {
			s.dc.DrawRectangle(math.Floor(x0)+0.5, math.Round(y-0.35*s.unit)+0.5, math.Floor(x1-x0)-1, math.Round(0.7*s.unit))
			s.dc.SetColor(water)
			s.dc.FillPreserve()
			s.dc.SetColor(faint)
			s.dc.SetLineWidth(1)
			s.dc.Stroke()
		}})
	}
	return list
}

func (s *sheet) legend(r Rect) float64 {
	u := s.unit
	y := s.heading("Legend", r)
	for _, e := range s.entries() {
		e.draw(r.X0, r.X0+4*u, y)
		s.dc.SetColor(ink)
		size := s.regular(0.95)
		s.write(e.text, size, r.X0+5*u, y, 0)
		y += 1.65 * u
	}
	return y
}

// bearings draws the arrow of grid north, the scale and what grid it is.
func (s *sheet) bearings(r Rect) float64 {
	dc, u := s.dc, s.unit
	y := s.heading("North and scale", r)

	// The arrow: left half solid, right half open.
	x, top, tail := r.X0+1.6*u, y-0.1*u, y+4.2*u
	dc.MoveTo(x, top)
	dc.LineTo(x-0.8*u, tail)
	dc.LineTo(x, tail-0.9*u)
	dc.ClosePath()
	dc.SetColor(ink)
	dc.Fill()
	dc.MoveTo(x, top)
	dc.LineTo(x+0.8*u, tail)
	dc.LineTo(x, tail-0.9*u)
	dc.ClosePath()
	dc.SetLineWidth(1)
	dc.Stroke()
	size := s.bold(0.9)
	s.write("GN", size, x, tail+0.8*u, 0.5)

	textX, lineY := r.X0+4*u, y+0.3*u
	write := func(text string, room float64) {
		size := s.regular(0.9)
		s.write(s.shorten(text, room), size, textX, lineY, 0)
		lineY += 1.4 * u
	}
	room := r.X1 - textX
	dc.SetColor(ink)
	write("Grid north is up", room)
	if gamma := s.Grid.ConvergenceAt(s.centreX, s.centreY) * 180 / math.Pi; !math.IsNaN(gamma) {
		write(fmt.Sprintf("Convergence %+.2f°", gamma), room)
		write("True = grid + convergence", room)
		write(fmt.Sprintf("WGS84, UTM zone %s (EPSG:%d)", s.Grid, s.Grid.EPSG()), room)
	} else {
		write("Local grid, position unknown", room)
	}
	y = tail + 2.6*u

	s.scaleBar(r.X0+0.5*u, y, min(r.X1-r.X0-4*u, 16*u))
	y += 2.6 * u
	if s.Mosaic != nil && s.Cell > 0 {
		dc.SetColor(faint)
		size := s.regular(0.9)
		s.write(fmt.Sprintf("Mosaic cells of %g m", s.Cell), size, r.X0, y, 0)
		y += 1.4 * u
	}
	return y
}

// scaleBar draws the longest round length that fits into width.
func (s *sheet) scaleBar(x, y, width float64) {
	dc, u := s.dc, s.unit
	length := ScaleBar(width / s.perMetre)
	size := s.regular(0.85)
	const parts = 4
	part := length / parts * s.perMetre
	dc.SetLineWidth(1)
	for i := range parts {
		dc.DrawRectangle(x+float64(i)*part, y, part, 0.45*u)
		dc.SetColor(ink)
		if i%2 == 1 {
			dc.SetColor(white)
		}
		dc.FillPreserve()
		dc.SetColor(ink)
		dc.Stroke()
	}
	for _, at := range [...]float64{0, 0.5, 1} {
		label := fmt.Sprintf("%g", at*length)
		if at == 1 {
			label += " m"
		}
		s.write(label, size, x+at*length*s.perMetre, y+1.15*u, 0.5)
	}
}

// ScaleBar returns the largest of 1, 2 and 5 times a power of ten that is not
// above most, which must be positive and finite.
func ScaleBar(most float64) float64 {
	step := picture.NiceStep(most)
	for step > most*(1+1e-9) {
		// The nice steps lie a factor of 2 or 2.5 apart.
		step = picture.NiceStep(step / 2.5)
	}
	return step
}

// notes writes the paragraphs as far as there is room and says when some is
// missing.
func (s *sheet) notes(r Rect) {
	u := s.unit
	if len(s.Notes) == 0 || r.Y1-r.Y0 < 4*u {
		return
	}
	y := s.heading("Notes", r)
	size := s.regular(0.92)
	s.dc.SetColor(ink)
	leading := 1.3 * u
	for _, note := range s.Notes {
		for _, line := range s.dc.WordWrap(note, r.X1-r.X0) {
			if y+leading > r.Y1-0.3*u {
				s.dc.SetColor(faint)
				s.write("more notes than room", size, r.X0, y, 0)
				return
			}
			s.write(s.shorten(line, r.X1-r.X0), size, r.X0, y, 0)
			y += leading
		}
		y += 0.5 * u
	}
}
