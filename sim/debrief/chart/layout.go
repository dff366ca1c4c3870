package chart

import "math"

// layout is where things stand on the sheet, in pixels, and how the local grid
// maps to it.
type layout struct {
	unit          float64 // size of ordinary lettering
	width, height float64
	frame         Rect // the map
	side          Rect // legend, north, scale, notes
	columns       bool // panel below the map rather than beside it

	perMetre         float64
	centreX, centreY float64 // local metres at the centre of the frame
}

// x and y return the place on the sheet of local grid metres.
func (l layout) x(east float64) float64 {
	return (l.frame.X0+l.frame.X1)/2 + (east-l.centreX)*l.perMetre
}

func (l layout) y(north float64) float64 {
	return (l.frame.Y0+l.frame.Y1)/2 - (north-l.centreY)*l.perMetre
}

// east and north are the inverses of x and y.
func (l layout) east(x float64) float64 {
	return l.centreX + (x-(l.frame.X0+l.frame.X1)/2)/l.perMetre
}

func (l layout) north(y float64) float64 {
	return l.centreY - (y-(l.frame.Y0+l.frame.Y1)/2)/l.perMetre
}

// Widths and heights of the parts of the sheet, in units of lettering.
const (
	headerHeight  = 5.4
	stripHeight   = 2.1 // the caution
	leftMargin    = 6.4 // northings
	topMargin     = 1.5 // positions of the upper corners
	bottomMargin  = 3.8 // eastings, positions of the lower corners
	outerMargin   = 1.5
	panelGap      = 2.0
	panelNarrow   = 22.0
	panelWide     = 34.0
	columnsHeight = 18.5
	labelRoom     = 9.0 // wanted beside the ground on both sides
)

// layOut chooses between a panel beside the map and one below it by the larger
// scale.
func layOut(c Chart, width, height int) layout {
	w, h := float64(width), float64(height)
	u := 15 * min(max(math.Sqrt(w*h/(1600*1200)), 0.8), 3)
	l := layout{unit: u, width: w, height: h}
	ground := extent(c)
	l.centreX, l.centreY = (ground.X0+ground.X1)/2, (ground.Y0+ground.Y1)/2
	// Names stand beyond the ends of lines, marks reach over the edge.
	east, north := ground.X1-ground.X0, ground.Y1-ground.Y0
	const names = 2 * 1.8
	scale := func(room Rect) float64 {
		return min((room.X1-room.X0-names*u)/east, (room.Y1-room.Y0-names*u)/north)
	}

	top, bottom := (headerHeight+topMargin)*u, h-(stripHeight+bottomMargin)*u
	fixed := (leftMargin + panelGap + outerMargin) * u
	beside := Rect{leftMargin * u, top, w - (panelNarrow+panelGap+outerMargin)*u, bottom}
	below := Rect{leftMargin * u, top, w - outerMargin*u, bottom - columnsHeight*u}
	if below.Y1-below.Y0 > 12*u && scale(below) > 1.1*scale(beside) {
		l.columns = true
		l.frame = below
		l.side = Rect{outerMargin * u, below.Y1 + bottomMargin*u, w - outerMargin*u, h - (stripHeight+0.5)*u}
	} else {
		wanted := scale(beside)*east + 2*labelRoom*u
		panel := min(max(w-fixed-wanted, panelNarrow*u), panelWide*u)
		l.frame = Rect{leftMargin * u, top, w - fixed - panel + leftMargin*u, bottom}
		l.side = Rect{l.frame.X1 + panelGap*u, top, w - outerMargin*u, h - (stripHeight+0.8)*u}
	}
	l.frame = Rect{math.Round(l.frame.X0), math.Round(l.frame.Y0), math.Round(l.frame.X1), math.Round(l.frame.Y1)}
	l.perMetre = scale(l.frame)
	return l
}

// extent returns the bounds in local metres of all that must be seen: y runs
// north here, from Y0 up to Y1. Where there is nothing else the tracks count.
func extent(c Chart) Rect {
	b := bounds{}
	if data := dataBounds(c.Mosaic); c.Cell > 0 && !data.Empty() {
		b.add(c.MinX+float64(data.Min.X)*c.Cell, c.MaxY-float64(data.Min.Y)*c.Cell)
		b.add(c.MinX+float64(data.Max.X)*c.Cell, c.MaxY-float64(data.Max.Y)*c.Cell)
	}
	if g := c.Ground; g != nil {
		b.add(g.MinX, g.MaxY)
		b.add(g.MinX+float64(g.Width)*g.Cell, g.MaxY-float64(g.Height)*g.Cell)
	}
	for _, l := range c.Lines {
		b.add(l.A[0], l.A[1])
		b.add(l.B[0], l.B[1])
	}
	for _, p := range c.Area {
		b.add(p[0], p[1])
	}
	for _, k := range c.Contacts {
		b.add(k.X, k.Y)
	}
	if !b.any {
		for _, track := range [...][]Point{c.Track, c.FishTrack} {
			for _, p := range track {
				b.add(p[0], p[1])
			}
		}
	}
	const smallest = 10 // metres: the scale stays finite
	if w := smallest - (b.X1 - b.X0); w > 0 {
		b.X0, b.X1 = b.X0-w/2, b.X1+w/2
	}
	if h := smallest - (b.Y1 - b.Y0); h > 0 {
		b.Y0, b.Y1 = b.Y0-h/2, b.Y1+h/2
	}
	return b.Rect
}

type bounds struct {
	Rect
	any bool
}

func (b *bounds) add(x, y float64) {
	if !finite(x, y) {
		return
	}
	if !b.any {
		b.Rect, b.any = Rect{x, y, x, y}, true
		return
	}
	b.X0, b.Y0 = min(b.X0, x), min(b.Y0, y)
	b.X1, b.Y1 = max(b.X1, x), max(b.Y1, y)
}

func finite(x, y float64) bool {
	return !math.IsNaN(x+y) && !math.IsInf(x, 0) && !math.IsInf(y, 0)
}
