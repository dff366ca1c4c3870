package app

import (
	"image"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
)

// layout is where the parts of the watch lie.
type layout struct {
	top, section, dials, fall, chart, side, rail image.Rectangle

	// Edges that can be dragged.
	underSection, rightOfSide, rightOfFall image.Rectangle
}

// arrange divides the window. A strip on top; under it the side view, as wide as the window, without one if it
// may not be seen; the dials; the rail of controls at the foot. Between them what is known lies under the
// place it is about: the waterfall under the fish, the chart under the way ahead, and the notes under what lies
// astern.
func arrange(size image.Rectangle, l *look.Look, s *Settings, sideView bool, topTall, railTall int) layout {
	var p layout
	gap := l.Px(4)
	x0, x1, y := size.Min.X, size.Max.X, size.Min.Y
	p.top = image.Rect(x0, y, x1, y+topTall)
	y = p.top.Max.Y
	dialsTall := dialsTall(l)
	p.rail = image.Rect(x0, size.Max.Y-railTall, x1, size.Max.Y)
	bottom := p.rail.Min.Y - gap
	side := max(int(s.SideShare*float64(size.Dx())), l.Px(leastSide))
	if size.Dy() < l.Px(shortWindow) { // the notes need the height: the others lie beside them
		p.side = image.Rect(x0, y, x0+side, bottom)
		x0 += side + gap
	}
	if sideView {
		tall := int(s.SectionShare * float64(size.Dy()))
		least := l.Px(110)
		most := size.Dy() - topTall - dialsTall - railTall - 2*gap - l.Px(160)
		tall = max(min(tall, most), min(least, most))
		p.section = image.Rect(x0, y, x1, y+tall)
		y = p.section.Max.Y
		p.underSection = image.Rect(x0, y, x1, y+gap)
		y += gap
	}
	p.dials = image.Rect(x0, y, x1, y+dialsTall)
	y = p.dials.Max.Y + gap
	left := x0
	if p.side.Empty() {
		p.side = image.Rect(x0, y, x0+side, bottom)
		left = p.side.Max.X + gap
	}
	p.rightOfSide = image.Rect(left-gap, p.side.Min.Y, left, bottom)
	fall := int(s.FallShare * float64(x1-left))
	p.fall = image.Rect(left, y, left+fall, bottom)
	p.rightOfFall = image.Rect(left+fall, y, left+fall+gap, bottom)
	p.chart = image.Rect(left+fall+gap, y, x1, bottom)
	return p
}

// shortWindow is how tall a window is, in points, that is short.
const shortWindow = 650

// leastSide is the least width of the side panel, points.
const leastSide = 270

// pins is a layouter that gives each child the place it was made for.
type pins struct{ at func(i int) image.Rectangle }

// PreferredSize implements [widget.Layouter].
func (s pins) PreferredSize([]widget.PreferredSizeLocateableWidget) (int, int) { return 0, 0 }

// Layout implements [widget.Layouter].
func (s pins) Layout(children []widget.PreferredSizeLocateableWidget, _ image.Rectangle) {
	for i, c := range children {
		c.SetLocation(s.at(i))
	}
}

// pinned returns a container whose children lie in the given places.
func pinned(at func(i int) image.Rectangle, children ...widget.PreferredSizeLocateableWidget) *widget.Container {
	c := widget.NewContainer(widget.ContainerOpts.Layout(pins{at}))
	c.AddChild(children...)
	return c
}
