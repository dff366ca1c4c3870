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
	underSection, rightOfFall, leftOfSide image.Rectangle
}

// arrange divides the window: a strip on top, the side view as wide as the
// window under it, the dials, then waterfall, chart and side panel beside each
// other, and the rail of controls at the foot.
func arrange(size image.Rectangle, l *look.Look, s *Settings, topTall, railTall int) layout {
	var p layout
	gap := l.Px(4)
	x0, x1, y := size.Min.X, size.Max.X, size.Min.Y
	p.top = image.Rect(x0, y, x1, y+topTall)
	y = p.top.Max.Y
	dialsTall := int(2*look.Tall(l.Small)+look.Tall(l.Dial)) + l.Px(10)
	sectionTall := int(s.SectionShare * float64(size.Dy()))
	least := l.Px(120)
	most := size.Dy() - topTall - dialsTall - railTall - 2*gap - l.Px(160)
	sectionTall = max(min(sectionTall, most), min(least, most))
	p.section = image.Rect(x0, y, x1, y+sectionTall)
	y = p.section.Max.Y
	p.underSection = image.Rect(x0, y, x1, y+gap)
	p.dials = image.Rect(x0, y+gap, x1, y+gap+dialsTall)
	y = p.dials.Max.Y + gap
	p.rail = image.Rect(x0, size.Max.Y-railTall, x1, size.Max.Y)
	bottom := p.rail.Min.Y - gap
	side := max(int(s.SideShare*float64(size.Dx())), l.Px(270))
	p.side = image.Rect(x1-side, y, x1, bottom)
	p.leftOfSide = image.Rect(x1-side-gap, y, x1-side, bottom)
	left := x1 - side - gap
	fall := int(s.FallShare * float64(left-x0))
	p.fall = image.Rect(x0, y, x0+fall, bottom)
	p.rightOfFall = image.Rect(x0+fall, y, x0+fall+gap, bottom)
	p.chart = image.Rect(x0+fall+gap, y, left, bottom)
	return p
}

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
