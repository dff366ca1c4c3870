package chart

import (
	"fmt"
	"math"
	"strconv"

	"dryline/sonar/waterfall/picture"
)

func (s *sheet) water() {
	f := s.frame
	s.dc.SetColor(water)
	s.dc.DrawRectangle(f.X0, f.Y0, f.X1-f.X0, f.Y1-f.Y0)
	s.dc.Fill()
}

// gridTicks returns the eastings and northings marked on the frame, in UTM
// metres, their step, and where they stand on the sheet.
func (l layout) gridTicks(originEast, originNorth float64) (step float64, eastings, northings []tick) {
	step = picture.NiceStep(7.5 * l.unit / l.perMetre)
	lo, hi := originEast+l.east(l.frame.X0), originEast+l.east(l.frame.X1)
	for _, e := range picture.Ticks(nil, lo, hi, step) {
		eastings = append(eastings, tick{e, l.x(e - originEast)})
	}
	lo, hi = originNorth+l.north(l.frame.Y1), originNorth+l.north(l.frame.Y0)
	for _, n := range picture.Ticks(nil, lo, hi, step) {
		northings = append(northings, tick{n, l.y(n - originNorth)})
	}
	return step, eastings, northings
}

// tick is a value in metres and its place along an edge in pixels.
type tick struct{ value, at float64 }

// gridCrosses marks where the ticked eastings and northings meet.
func (s *sheet) gridCrosses() {
	_, eastings, northings := s.gridTicks(s.Grid.OriginEasting, s.Grid.OriginNorthing)
	arm := 0.35 * s.unit
	for _, e := range eastings {
		for _, n := range northings {
			s.dc.DrawLine(e.at-arm, n.at, e.at+arm, n.at)
			s.dc.DrawLine(e.at, n.at-arm, e.at, n.at+arm)
		}
	}
	s.dc.SetLineWidth(1)
	s.dc.SetRGBA255(0x22, 0x26, 0x2a, 0x70)
	s.dc.Stroke()
}

// border draws the border with its ticks, and the positions of its corners.
func (s *sheet) border() {
	f, u, dc := s.frame, s.unit, s.dc
	dc.SetColor(ink)
	dc.SetLineWidth(max(1.5, u/9))
	dc.DrawRectangle(f.X0, f.Y0, f.X1-f.X0, f.Y1-f.Y0)
	dc.Stroke()

	step, eastings, northings := s.gridTicks(s.Grid.OriginEasting, s.Grid.OriginNorthing)
	size := s.regular(0.82)
	dc.SetLineWidth(1)
	long := 0.5 * u
	for _, t := range eastings {
		dc.DrawLine(t.at, f.Y0, t.at, f.Y0-long)
		dc.DrawLine(t.at, f.Y1, t.at, f.Y1+long)
		dc.Stroke()
		label := gridLabel(t.value, step) + " E"
		w, _ := dc.MeasureString(label)
		s.write(label, size, min(t.at, f.X1+0.9*u-w/2), f.Y1+1.15*u, 0.5)
	}
	for _, t := range northings {
		dc.DrawLine(f.X0, t.at, f.X0-long, t.at)
		dc.DrawLine(f.X1, t.at, f.X1+long, t.at)
		dc.Stroke()
		s.write(gridLabel(t.value, step)+" N", size, f.X0-0.7*u, t.at, 1)
	}

	dc.SetColor(faint)
	for _, corner := range [...]struct{ x, y, textY, ax float64 }{
		{f.X0, f.Y0, f.Y0 - 1.05*u, 0}, {f.X1, f.Y0, f.Y0 - 1.05*u, 1},
		{f.X0, f.Y1, f.Y1 + 2.5*u, 0}, {f.X1, f.Y1, f.Y1 + 2.5*u, 1},
	} {
		lat, lon := s.Grid.ToLatLon(s.east(corner.x), s.north(corner.y)).Degrees()
		if text, ok := position(lat, lon); ok {
			s.write(text, size, corner.x, corner.textY, corner.ax)
		}
	}
}

// gridLabel writes metres in groups of three.
func gridLabel(v, step float64) string {
	text := picture.FormatTick(math.Abs(v), step)
	whole := len(strconv.FormatFloat(math.Floor(math.Abs(v)), 'f', 0, 64))
	for i := whole - 3; i > 0; i -= 3 {
		text = text[:i] + " " + text[i:]
	}
	if v < 0 {
		text = "-" + text
	}
	return text
}

// position writes latitude and longitude in degrees and minutes to 0.001′,
// about 2 m; false when there is none to write.
func position(latDeg, lonDeg float64) (string, bool) {
	if !finite(latDeg, lonDeg) {
		return "", false
	}
	return minutes(latDeg, 2, 'N', 'S') + "  " + minutes(lonDeg, 3, 'E', 'W'), true
}

func minutes(deg float64, digits int, positive, negative rune) string {
	hemisphere := positive
	if deg < 0 {
		hemisphere = negative
	}
	thousandths := int64(math.Round(math.Abs(deg) * 60e3))
	return fmt.Sprintf("%0*d° %06.3f′ %c", digits, thousandths/60e3, float64(thousandths%60e3)/1e3, hemisphere)
}
