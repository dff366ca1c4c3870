package panes

import (
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/survey/coverage"

	"github.com/hajimehoshi/ebiten/v2"
)

// hatchEvery is how far the strokes of a hatch lie apart, points.
const hatchEvery = 6

// Hatch strokes ground that was not seen, by its rows from the south, onto a pane. However small it is, there is
// a stroke of it.
func Hatch(pane *ebiten.Image, p *Projection, rows []coverage.Row, l *look.Look, width float64) {
	last := math.Inf(-1)
	for _, row := range rows {
		x0, y := p.At(row.West, row.Y)
		x1, _ := p.At(row.East, row.Y)
		if math.Abs(y-last) < hatchEvery*l.Scale && y != last {
			continue
		}
		last = y
		if y < float64(p.Pane.Min.Y) || y > float64(p.Pane.Max.Y) || x1 < float64(p.Pane.Min.X) || x0 > float64(p.Pane.Max.X) {
			continue
		}
		look.Stroke(pane, x0, y, max(x1, x0+2), y, width, l.Mark)
	}
}
