package app

import (
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

// bracketRadius is how far off a contact its bracket stands, pixels: clear of what was measured
// of it at so many pixels a metre, within bounds.
func bracketRadius(c *survey.Contact, perMetre float64, l *look.Look) float64 {
	const least, most, clear = 13, 60, 6 // points
	return min(max(max(c.Length, c.Width)/2*perMetre+clear*l.Scale, least*l.Scale), most*l.Scale)
}

// bracket marks a thing on a record by two arcs, one ahead and one astern of it: its echo lies free between them,
// and so does the shadow, which falls to a side.
func bracket(dst *ebiten.Image, x, y, radius, stroke float64, l *look.Look) {
	const pieces, reach = 10, 55 * math.Pi / 180 // to either side of straight ahead
	for _, way := range []float64{-1, 1} {
		arc := make([]float64, 0, 2*(pieces+1))
		for i := range pieces + 1 {
			sin, cos := math.Sincos(reach * (2*float64(i)/pieces - 1))
			arc = append(arc, x+radius*sin, y+way*radius*cos)
		}
		look.Trace(dst, arc, stroke+1.4*l.Scale, l.Panel)
		look.Trace(dst, arc, stroke, l.Mark)
	}
}
