package app

import (
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"
)

// drag is what the pointer is doing while its button is down.
type drag struct {
	what   dragged
	x0, y0 int
	from   [2]float64 // on the ground, of a measure
	to     [2]float64
	ping   uint64
	moved  bool
}

type dragged int

const (
	nothing dragged = iota
	chartMoved
	sectionEdge
	fallEdge
	sideEdge
	measuring
)

func (w *Watch) mouse(g *Game) {
	x, y, taken := g.Pointer()
	at := image.Pt(x, y)
	w.wheel(at, taken)
	w.panFall(at, taken)
	w.plot.CursorOn = at.In(w.at.chart) && !taken
	if w.plot.CursorOn {
		gx, gy := w.chart.Ground(float64(x), float64(y))
		w.plot.FigureOfCursor = w.position(gx, gy)
	}
	switch {
	case inpututil.IsMouseButtonJustPressed(ebiten.MouseButtonLeft) && !taken:
		w.press(g, at)
	case inpututil.IsMouseButtonJustPressed(ebiten.MouseButtonRight) && at.In(w.at.chart) && !taken:
		gx, gy := w.chart.Ground(float64(x), float64(y))
		w.give(order.Command{Do: order.SteerPoint, X: gx, Y: gy})
	case w.drag.what != nothing && ebiten.IsMouseButtonPressed(ebiten.MouseButtonLeft):
		w.pull(g, at)
	case w.drag.what != nothing:
		w.release(g)
	}
	if w.drag.what == measuring {
		w.plot.Measure = append(w.plot.Measure[:0], w.drag.from[0], w.drag.from[1], w.drag.to[0], w.drag.to[1])
	} else {
		w.plot.Measure = w.plot.Measure[:0]
	}
	w.cursorShape(at)
}

// cursorShape says what can be done under the pointer.
func (w *Watch) cursorShape(at image.Point) {
	shape := ebiten.CursorShapeDefault
	switch {
	case wider(w.at.underSection).Overlaps(image.Rectangle{Min: at, Max: at.Add(image.Pt(1, 1))}):
		shape = ebiten.CursorShapeNSResize
	case near(w.at.rightOfFall, at), near(w.at.leftOfSide, at):
		shape = ebiten.CursorShapeEWResize
	case w.marking && (at.In(w.at.fall) || at.In(w.at.chart)):
		shape = ebiten.CursorShapeCrosshair
	}
	ebiten.SetCursorShape(shape)
}

func wider(r image.Rectangle) image.Rectangle { return r.Inset(-3) }

func near(r image.Rectangle, at image.Point) bool { return at.In(wider(r)) }

func (w *Watch) wheel(at image.Point, taken bool) {
	_, dy := ebiten.Wheel()
	if dy == 0 || taken {
		return
	}
	switch {
	case at.In(w.at.chart):
		w.chart.Zoom(math.Pow(1.2, dy), float64(at.X), float64(at.Y))
		w.placed = true
	case ebiten.IsKeyPressed(ebiten.KeyControl) || ebiten.IsKeyPressed(ebiten.KeyShift):
		w.zoomFall(math.Pow(1.2, dy), at)
	case at.In(w.at.fall):
		w.scrollFall(-dy * 24 / w.looking.zoom)
	}
}

func (w *Watch) press(g *Game, at image.Point) {
	w.drag = drag{x0: at.X, y0: at.Y}
	switch {
	case at.In(w.liveRect(g.Look)):
		w.live()
	case near(w.at.underSection, at):
		w.drag.what = sectionEdge
	case near(w.at.rightOfFall, at):
		w.drag.what = fallEdge
	case near(w.at.leftOfSide, at):
		w.drag.what = sideEdge
	case w.marking:
		if p, ok := w.pick(at); ok {
			w.give(order.Command{Do: order.Mark, X: p.x, Y: p.y, Ping: p.ping})
			w.marking, w.chosen = false, -1 // the newest, when it is there
		}
	case at.In(w.at.chart) && w.spotAt(at) != 0:
		w.chosen = w.spotAt(at)
	case w.chosen > 0 && at.In(w.at.fall), w.chosen > 0 && at.In(w.at.chart) && ebiten.IsKeyPressed(ebiten.KeyShift):
		if p, ok := w.pick(at); ok {
			w.drag.what, w.drag.ping = measuring, p.ping
			w.drag.from, w.drag.to = [2]float64{p.x, p.y}, [2]float64{p.x, p.y}
		}
	case at.In(w.at.chart):
		w.drag.what = chartMoved
	}
}

func (w *Watch) pull(g *Game, at image.Point) {
	dx, dy := at.X-w.drag.x0, at.Y-w.drag.y0
	w.drag.moved = w.drag.moved || dx*dx+dy*dy > 9
	size := g.area()
	switch w.drag.what {
	case chartMoved:
		w.chart.X -= float64(dx) / w.chart.PerM
		w.chart.Y += float64(dy) / w.chart.PerM
		w.follow, w.placed = false, true
		w.drag.x0, w.drag.y0 = at.X, at.Y
	case measuring:
		if p, ok := w.pick(at); ok {
			w.drag.to = [2]float64{p.x, p.y}
		}
	case sectionEdge:
		share := float64(at.Y-w.at.section.Min.Y) / float64(size.Dy())
		w.reshape(g, func(s *Settings) { s.SectionShare = min(max(share, 0.15), 0.6) })
	case fallEdge:
		share := float64(at.X) / float64(w.at.side.Min.X)
		w.reshape(g, func(s *Settings) { s.FallShare = min(max(share, 0.15), 0.85) })
	case sideEdge:
		share := float64(size.Max.X-at.X) / float64(size.Dx())
		w.reshape(g, func(s *Settings) { s.SideShare = min(max(share, 0.15), 0.4) })
	}
}

// reshape moves an edge; the settings are kept when it is let go.
func (w *Watch) reshape(g *Game, f func(*Settings)) {
	f(&g.Settings)
	g.Rebuild()
}

func (w *Watch) release(g *Game) {
	d := w.drag
	w.drag = drag{}
	switch d.what {
	case sectionEdge, fallEdge, sideEdge:
		g.keepSettings()
	case measuring:
		if d.moved && w.chosen > 0 {
			w.give(order.Command{Do: order.Measure, Number: w.chosen, Text: w.measure,
				X: d.from[0], Y: d.from[1], X2: d.to[0], Y2: d.to[1], Ping: d.ping})
		}
	}
}

// picked is a place on the ground.
type picked struct {
	x, y float64
	ping uint64 // it was seen in, 0 from the chart
}

// pick is the ground under a pixel of the waterfall or the chart.
func (w *Watch) pick(at image.Point) (picked, bool) {
	if at.In(w.at.chart) {
		x, y := w.chart.Ground(float64(at.X), float64(at.Y))
		return picked{x: x, y: y}, true
	}
	p, slant, starboard, ok := w.echo(at)
	if f, _ := w.fallAt(at); !ok || echoless(p, f.channel) {
		return picked{}, false
	}
	x, y, ok := survey.GroundAt(p.Fix, p.Height, starboard, slant)
	return picked{x, y, p.Number}, ok
}

// echo is the ping and slant range under a pixel of the waterfall.
func (w *Watch) echo(at image.Point) (p *crew.Ping, slant float64, starboard, ok bool) {
	f, ok := w.fallAt(at)
	if !ok {
		return nil, 0, false, false
	}
	r, v := f.r, w.fallView(f.r)
	age := int(v.Newest + float64(at.Y-r.Min.Y)/v.PerRow)
	n := len(w.history) - 1 - age
	if age < 0 || age >= w.held() { // no row is held there
		return nil, 0, false, false
	}
	p = &w.history[n]
	column := v.Left + float64(at.X-r.Min.X)/v.PerBin
	share := (column - panes.RowBins) / panes.RowBins
	if math.Abs(share) > 1 {
		return nil, 0, false, false
	}
	return p, math.Abs(share) * p.RangeScale, share > 0, true
}

// spotAt is the contact under a pixel of the chart, 0 for none.
func (w *Watch) spotAt(at image.Point) int {
	for _, c := range w.view.Contacts {
		x, y := w.chart.At(c.X, c.Y)
		if math.Hypot(x-float64(at.X), y-float64(at.Y)) < 10 {
			return c.Number
		}
	}
	return 0
}

// position is a place in the grid's own figures.
func (w *Watch) position(x, y float64) string {
	e, n := w.exercise.Place.Grid.ToUTM(x, y)
	return fmt.Sprintf("%.1f E  %.1f N", e, n)
}
