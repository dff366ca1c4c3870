package app

import (
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/order"
	"dryline/sim/survey"
	"dryline/sonar/acoustics"

	"github.com/hajimehoshi/ebiten/v2"
)

// pointer holds what the pointer is doing while its button is down.
type pointer struct {
	what  dragged
	down  image.Point // where it went down, or the chart was last moved from
	from  picked      // of a measure
	to    picked
	moved bool

	marked bool // the press marked a contact
}

type dragged int

const (
	nothing dragged = iota
	chartMoved
	sectionEdge
	fallEdge
	sideEdge
	stripHeld
	measuring
)

// picked is a place on the ground.
type picked struct {
	x, y float64
	ping uint64 // it was seen in, 0 from the chart
}

// mouse does what the mouse asks for.
func (w *Watch) mouse(g *Game) {
	x, y, taken := g.Pointer()
	at := image.Pt(x, y)
	w.wheel(at, taken)
	w.fall.pan(at, taken)
	w.fall.click(at, taken, w.contacts.marking)
	w.chart.point(at, at.In(w.at.chart) && !taken)
	switch {
	case wentDown(ebiten.MouseButtonLeft) && !taken:
		w.press(g, at)
	case wentDown(ebiten.MouseButtonRight) && at.In(w.at.chart) && !taken:
		gx, gy := w.chart.Ground(float64(x), float64(y))
		w.give(order.Command{Do: order.SteerPoint, X: gx, Y: gy})
	case w.pointer.what != nothing && held(ebiten.MouseButtonLeft):
		w.pull(g, at)
	case w.pointer.what != nothing:
		w.release(g)
	}
	w.chart.plot.Measure = w.chart.plot.Measure[:0]
	if p := &w.pointer; p.what == measuring {
		w.chart.plot.Measure = append(w.chart.plot.Measure, p.from.x, p.from.y, p.to.x, p.to.y)
	}
	ebiten.SetCursorShape(w.shape(at))
}

// ruler is the measure that is being taken, nil if none is.
func (w *Watch) ruler() *ruler {
	p := &w.pointer
	if p.what != measuring {
		return nil
	}
	return &ruler{p.down, fmt.Sprintf("%s %.1f m", w.contacts.measure, math.Hypot(p.to.x-p.from.x, p.to.y-p.from.y))}
}

// edges are the edges between the panes that can be dragged, and how the pointer
// looks on them.
func (w *Watch) edges() []edge {
	return []edge{
		{w.at.underSection, sectionEdge, ebiten.CursorShapeNSResize},
		{w.at.rightOfFall, fallEdge, ebiten.CursorShapeEWResize},
		{w.at.rightOfSide, sideEdge, ebiten.CursorShapeEWResize},
	}
}

type edge struct {
	at    image.Rectangle
	what  dragged
	shape ebiten.CursorShapeType
}

// edgeAt is the edge at or near a pixel.
func (w *Watch) edgeAt(at image.Point) (edge, bool) {
	for _, e := range w.edges() {
		if at.In(e.at.Inset(-3)) {
			return e, true
		}
	}
	return edge{}, false
}

// shape says what can be done under the pointer.
func (w *Watch) shape(at image.Point) ebiten.CursorShapeType {
	if e, ok := w.edgeAt(at); ok {
		return e.shape
	}
	if w.contacts.marking && (at.In(w.at.fall) || at.In(w.at.chart)) {
		return ebiten.CursorShapeCrosshair
	}
	return ebiten.CursorShapeDefault
}

func (w *Watch) wheel(at image.Point, taken bool) {
	dy, zoom := turned()
	if dy == 0 || taken {
		return
	}
	switch {
	case at.In(w.at.chart):
		w.chart.zoom(math.Pow(1.2, dy), at)
	case zoom || shiftHeld():
		w.fall.zoomAbout(math.Pow(1.2, dy), at)
	case at.In(w.at.fall):
		if w.fall.looking.foot { // what is older lies above
			dy = -dy
		}
		w.fall.scroll(-dy * 24 / w.fall.looking.zoom)
	}
}

// press begins what the left button does at a pixel.
func (w *Watch) press(g *Game, at image.Point) {
	w.pointer = pointer{down: at}
	e, onEdge := w.edgeAt(at)
	switch {
	case at.In(w.fall.liveRect(g.Look)):
		w.fall.live()
	case at.In(w.fall.stripRect()) && !onEdge:
		w.pointer.what = stripHeld
		w.fall.goTo(at.Y)
	case onEdge:
		w.pointer.what = e.what
	case w.contacts.marking:
		if p, ok := w.pick(at); ok {
			w.contacts.mark(p)
			w.pointer.marked = true
		}
	case at.In(w.at.chart) && w.chart.spotAt(at) != 0:
		w.contacts.chosen = w.chart.spotAt(at)
	case w.measures(at):
		if p, ok := w.pick(at); ok {
			w.pointer.what, w.pointer.from, w.pointer.to = measuring, p, p
		}
	case at.In(w.at.chart):
		w.pointer.what = chartMoved
	}
}

// measures reports whether a drag from a pixel measures the contact chosen: on the
// chart it does with Shift.
func (w *Watch) measures(at image.Point) bool {
	return w.contacts.chosen > 0 && (at.In(w.at.fall) || at.In(w.at.chart) && shiftHeld())
}

// pull continues what the button began, at a pixel.
func (w *Watch) pull(g *Game, at image.Point) {
	by := at.Sub(w.pointer.down)
	w.pointer.moved = w.pointer.moved || by.X*by.X+by.Y*by.Y > 9
	size := g.area()
	switch w.pointer.what {
	case chartMoved:
		w.chart.move(by)
		w.pointer.down = at
	case stripHeld:
		w.fall.goTo(at.Y)
	case measuring:
		if p, ok := w.pick(at); ok {
			w.pointer.to = p
		}
	case sectionEdge:
		share := float64(at.Y-w.at.section.Min.Y) / float64(size.Dy())
		w.reshape(g, &g.Settings.SectionShare, min(max(share, 0.15), 0.6))
	case fallEdge:
		share := float64(at.X-w.at.fall.Min.X) / float64(size.Max.X-w.at.fall.Min.X)
		w.reshape(g, &g.Settings.FallShare, min(max(share, 0.15), 0.85))
	case sideEdge:
		share := float64(at.X-size.Min.X) / float64(size.Dx())
		w.reshape(g, &g.Settings.SideShare, min(max(share, 0.15), 0.4))
	}
}

// reshape moves an edge; the settings are kept when it is let go.
func (w *Watch) reshape(g *Game, share *float64, to float64) {
	*share = to
	g.Rebuild()
}

// release ends what the button began.
func (w *Watch) release(g *Game) {
	p := w.pointer
	w.pointer = pointer{}
	if number := w.fall.contactAt(p.down, g.Look); number != 0 && !p.moved && !p.marked {
		w.contacts.chosen = number
	}
	switch p.what {
	case sectionEdge, fallEdge, sideEdge:
		g.keepSettings()
	case measuring:
		if p.moved && w.contacts.chosen > 0 {
			w.give(order.Command{Do: order.Measure, Number: w.contacts.chosen, Text: w.contacts.measure,
				X: p.from.x, Y: p.from.y, X2: p.to.x, Y2: p.to.y, Ping: p.from.ping, Value: w.groundPixel(p.down)})
		}
	}
}

// groundPixel is how much ground a pixel takes of the picture that is under one, metres.
func (w *Watch) groundPixel(at image.Point) float64 {
	size := 1 / w.chart.PerM
	if p, _, _, ok := w.fall.echo(at); ok {
		f, _ := w.fall.under(at)
		v := w.fall.part(f.r)
		advance := p.Fix.Speed * acoustics.PingInterval(p.RangeScale, w.view.Settings.SoundSpeed)
		size = max(p.RangeScale/(panes.RowBins*v.PerBin), advance/v.PerRow)
	}
	return math.Round(1000*size) / 1000
}

// pick is the ground under a pixel of the waterfall or the chart.
func (w *Watch) pick(at image.Point) (picked, bool) {
	if at.In(w.at.chart) {
		x, y := w.chart.Ground(float64(at.X), float64(at.Y))
		return picked{x: x, y: y}, true
	}
	p, slant, starboard, ok := w.fall.echo(at)
	if f, _ := w.fall.under(at); !ok || echoless(p, f.channel) {
		return picked{}, false
	}
	x, y, ok := survey.GroundAt(p.Fix, p.Height, starboard, slant)
	return picked{x, y, p.Number}, ok
}

// choose chooses a contact and looks at it.
func (w *Watch) choose(c survey.Contact) {
	w.contacts.chosen = c.Number
	w.fall.lookAt(&c)
}
