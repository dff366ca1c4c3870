package app

import (
	"image"
	"math"

	"dryline/sim/plan"

	"github.com/hajimehoshi/ebiten/v2"
)

// corner is the hand on the corners of a drawn area.
type corner struct {
	held   int  // that is moved, from 1
	down   bool // pressed on the chart, and not moved yet
	from   image.Point
	cross  plan.Point
	placed bool // the cross is
}

// nextArea takes the area of the exercise, or one that is drawn.
func (s *Laying) nextArea(g *Game) {
	s.sheet.drawn = !s.sheet.drawn
	if s.sheet.drawn && !s.hand.placed {
		b := s.sheet.brief
		s.hand.cross, s.hand.placed = plan.Point{X: math.Round(b.East / 2), Y: math.Round(b.North / 2)}, true
	}
	s.chose(g)
}

// point takes the pointer: it sets and moves corners of a drawn area, and moves the chart.
func (s *Laying) point(g *Game, at image.Point, taken bool) {
	on := at.In(s.chart) && !taken
	h := &s.hand
	if s.sheet.drawn && wentDown(ebiten.MouseButtonLeft) && on {
		h.from, h.down, h.held = at, true, s.cornerAt(at, 12*g.Look.Scale)
	}
	pressed := held(ebiten.MouseButtonLeft)
	moved := math.Hypot(float64(at.X-h.from.X), float64(at.Y-h.from.Y)) > 4*g.Look.Scale
	switch {
	case h.held > 0 && pressed:
		if moved || !h.down {
			h.down = false
			s.sheet.corners[h.held-1] = s.round(at)
			s.dirty, s.view.moved = true, true
		}
	case h.held > 0:
		h.held, h.down = 0, false
		g.Rebuild()
	case h.down && !pressed:
		h.down = false
		if on {
			s.addCorner(g, s.round(at))
		}
	case h.down && moved:
		h.down = false
	}
	if !g.Typing() {
		s.view.input(at, on && h.held == 0)
	}
}

// round is the place under a pixel, to a metre.
func (s *Laying) round(at image.Point) plan.Point {
	x, y := s.view.Ground(float64(at.X), float64(at.Y))
	return plan.Point{X: math.Round(x), Y: math.Round(y)}
}

// cornerAt is the corner so near to a pixel, from 1, or 0.
func (s *Laying) cornerAt(at image.Point, near float64) int {
	for i, c := range s.sheet.corners {
		if x, y := s.view.At(c.X, c.Y); math.Hypot(x-float64(at.X), y-float64(at.Y)) <= near {
			return i + 1
		}
	}
	return 0
}

// mostCorners bounds the corners of an area.
const mostCorners = 40

func (s *Laying) addCorner(g *Game, p plan.Point) {
	if len(s.sheet.corners) == mostCorners {
		g.say("An area can have at most 40 corners here.")
		return
	}
	s.sheet.corners = append(s.sheet.corners, p)
	s.hand.cross = p
	s.view.moved = true // who draws wants the chart to stay
	s.chose(g)
}

// cross takes the keys that draw an area.
func (s *Laying) cross(g *Game) {
	if !s.sheet.drawn {
		return
	}
	by := 10.0
	if shiftHeld() {
		by = 1
	}
	for k, d := range map[ebiten.Key]plan.Point{ebiten.KeyLeft: {X: -by}, ebiten.KeyRight: {X: by}, ebiten.KeyUp: {Y: by}, ebiten.KeyDown: {Y: -by}} {
		if again(k) {
			c := &s.hand.cross
			b := &s.sheet.brief.Depths
			c.X = min(max(c.X+d.X, b.X0), b.X0+float64(b.NX-1)*b.Step)
			c.Y = min(max(c.Y+d.Y, b.Y0), b.Y0+float64(b.NY-1)*b.Step)
		}
	}
	switch {
	case justPressed(ebiten.KeySpace):
		s.addCorner(g, s.hand.cross)
	case justPressed(ebiten.KeyBackspace):
		s.takeBack(g)
	}
}

// takeBack takes the last corner back.
func (s *Laying) takeBack(g *Game) {
	if n := len(s.sheet.corners); n > 0 {
		s.sheet.corners = s.sheet.corners[:n-1]
		s.chose(g)
	}
}
