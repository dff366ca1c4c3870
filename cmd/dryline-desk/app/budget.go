package app

import (
	"time"

	"dryline/cmd/dryline-desk/panes"
)

// budget is how long the crew may work within a frame: on a page that is drawn
// slowly a share of the time a frame takes, or it would fall behind the slower the
// more it draws. None is for a crew apart.
func (g *Game) budget() time.Duration {
	if g.Apart {
		return 0
	}
	return min(max(g.passed/3, 9*time.Millisecond), 50*time.Millisecond)
}

// shade is how grey becomes colour, by what the person has set.
func (g *Game) shade(brightness float64) panes.Shade {
	return panes.Shade{Ramp: rampNamed(g.Settings.Ramp), Contrast: g.Settings.Contrast, Lift: brightness}
}

// chartShade is that of a mosaic, stretched by what is painted of one: itself, or what it is compared with.
func (g *Game) chartShade(brightness float64, by *panes.Mosaic) panes.Shade {
	s := g.shade(brightness)
	s.Stretch = by.Painted()
	return s
}
