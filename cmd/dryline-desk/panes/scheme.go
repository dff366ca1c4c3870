package panes

import (
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// Sight is how a place is seen by lines that are planned.
type Sight uint8

// The sights, each with a pattern of its own besides its colour.
const (
	Elsewhere Sight = iota // the place is not to be surveyed
	Unseen                 // no line reaches it
	UnderFish              // it lies under a fish, and nothing else sees it
	SeenOnce               // one look
	SeenTwice              // or more
)

// Scheme shows what lines that are planned see of the ground, and where the fish would be at risk.
type Scheme struct {
	X0, Y0, Cell float64 // corner of the first cell, metres
	NX, NY       int
	Seen         []Sight // row by row from the south

	Turns [][]float64 // ways from line to line, x and y in turn
	Edges []float64   // of the swaths, two points each
	Inner []float64   // of the gaps next to the fish
	Risks []float64   // places, x and y in turn
	Runs  []float64   // the lines, from start to end, two points each
	Area  []float64   // corners, x and y in turn
	Drawn bool        // they can be moved
	Held  int         // the one that is, from 1
	Cross []float64   // where the next corner goes, or nothing

	picture *ebiten.Image
	of      pictured
}

// pictured remembers what a picture of the looks was made for.
type pictured struct {
	Projection
	theme *look.Theme
	scale float64
}

// Patterns are the colours of the sights, with what tells each from the others without colour.
type Patterns struct {
	ink, ground [SeenTwice + 1]color.RGBA
	cross       [2]int // pixels from stroke to stroke, and of one
	slant, dots [2]int
}

// PatternsOf are those of a look.
func PatternsOf(l *look.Look) *Patterns {
	k := func(n float64) int { return max(l.Px(n), 2) }
	return &Patterns{
		ink:    [...]color.RGBA{Unseen: l.Alarm, UnderFish: l.Mark, SeenTwice: look.Fade(l.Wake, 0.9)},
		ground: [...]color.RGBA{Unseen: look.Fade(l.Alarm, 0.12), UnderFish: look.Fade(l.Mark, 0.18), SeenOnce: look.Fade(l.Wake, 0.2), SeenTwice: look.Fade(l.Wake, 0.42)},
		cross:  [2]int{k(12), k(2)}, slant: [2]int{k(6), k(2)}, dots: [2]int{k(9), k(1.5)},
	}
}

// At is the colour of a sight at a pixel.
func (p *Patterns) At(s Sight, x, y int) color.RGBA {
	inked := false
	switch s {
	case Unseen:
		n, w := p.cross[0], p.cross[1]
		inked = (x+y)%n < w || ((x-y)%n+n)%n < w
	case UnderFish:
		inked = (x+y)%p.slant[0] < p.slant[1]
	case SeenTwice:
		inked = x%p.dots[0] < p.dots[1] && y%p.dots[0] < p.dots[1]
	}
	if inked {
		return p.ink[s]
	}
	return p.ground[s]
}

// ground draws the looks. The picture is made when what it shows or where it looks changes.
func (s *Scheme) ground(dst *ebiten.Image, p *Projection, l *look.Look) {
	if s == nil || len(s.Seen) == 0 || p.Pane.Empty() {
		return
	}
	if of := (pictured{*p, l.Theme, l.Scale}); s.picture == nil || s.of != of {
		s.of = of
		s.paint(p, l)
	}
	o := new(ebiten.DrawImageOptions)
	o.GeoM.Translate(float64(p.Pane.Min.X), float64(p.Pane.Min.Y))
	dst.DrawImage(s.picture, o)
}

func (s *Scheme) paint(p *Projection, l *look.Look) {
	wide, tall := p.Pane.Dx(), p.Pane.Dy()
	img := image.NewRGBA(image.Rect(0, 0, wide, tall))
	pattern, cols := PatternsOf(l), make([]int, wide)
	for x := range cols {
		gx, _ := p.Ground(float64(p.Pane.Min.X+x)+0.5, 0)
		if cols[x] = int(math.Floor((gx - s.X0) / s.Cell)); cols[x] >= s.NX {
			cols[x] = -1
		}
	}
	for y := range tall {
		_, gy := p.Ground(0, float64(p.Pane.Min.Y+y)+0.5)
		row := int(math.Floor((gy - s.Y0) / s.Cell))
		if row < 0 || row >= s.NY {
			continue
		}
		for x, col := range cols {
			if col < 0 {
				continue
			}
			if c := pattern.At(s.Seen[row*s.NX+col], x, y); c.A > 0 {
				k := img.PixOffset(x, y)
				img.Pix[k], img.Pix[k+1], img.Pix[k+2], img.Pix[k+3] = c.R, c.G, c.B, c.A
			}
		}
	}
	if s.picture != nil && s.picture.Bounds() != img.Rect {
		s.picture.Deallocate()
		s.picture = nil
	}
	if s.picture == nil {
		s.picture = ebiten.NewImage(wide, tall)
	}
	s.picture.WritePixels(img.Pix)
}

// Release lets the picture go.
func (s *Scheme) Release() {
	if s != nil && s.picture != nil {
		s.picture.Deallocate()
		s.picture = nil
	}
}

// draw draws area, edges of swaths, turns and what is at risk.
func (s *Scheme) draw(dst *ebiten.Image, p *Projection, l *look.Look) {
	if s == nil {
		return
	}
	flat := func(points []float64) (out []float64) {
		for i := 0; i+1 < len(points); i += 2 {
			x, y := p.At(points[i], points[i+1])
			out = append(out, x, y)
		}
		return out
	}
	look.Segments(dst, flat(s.Inner), l.Scale, look.Fade(l.Mark, 0.8))
	edges := flat(s.Edges)
	for i := 0; i+3 < len(edges); i += 4 {
		look.Dotted(dst, edges[i], edges[i+1], edges[i+2], edges[i+3], l.Scale, 2*l.Scale, 4*l.Scale, look.Fade(l.Wake, 0.9))
	}
	for _, turn := range s.Turns {
		look.Trace(dst, flat(turn), 1.3*l.Scale, look.Fade(l.Theme.Track, 0.9))
	}
	s.arrows(p, func(x, y, dx, dy float64) {
		r := 8 * l.Scale
		look.Shape(dst, []float64{x + r*dx, y + r*dy, x - r*dx - 0.7*r*dy, y - r*dy + 0.7*r*dx, x - r*dx + 0.7*r*dy, y - r*dy - 0.7*r*dx}, l.Accent)
	})
	corners := flat(s.Area)
	n := len(corners)
	for i := 0; n >= 4 && i < n; i += 2 {
		if i+2 == n && n == 4 {
			break
		}
		look.Stroke(dst, corners[i], corners[i+1], corners[(i+2)%n], corners[(i+3)%n], 2*l.Scale, l.Accent)
	}
	for i := 0; s.Drawn && i < n; i += 2 {
		r := l.Px(4)
		if s.Held == i/2+1 {
			r = l.Px(7)
		}
		x, y := int(corners[i]), int(corners[i+1])
		look.Fill(dst, image.Rect(x-r, y-r, x+r, y+r), l.Accent)
		look.Frame(dst, image.Rect(x-r, y-r, x+r, y+r), max(l.Px(1), 1), l.Panel)
	}
	for i := 0; i+1 < len(s.Risks); i += 2 {
		x, y := p.At(s.Risks[i], s.Risks[i+1])
		Warning(dst, x, y, l)
	}
	if len(s.Cross) == 2 {
		x, y := p.At(s.Cross[0], s.Cross[1])
		r := 11 * l.Scale
		look.Segments(dst, []float64{x - r, y, x - r/3, y, x + r/3, y, x + r, y, x, y - r, x, y - r/3, x, y + r/3, x, y + r}, 2*l.Scale, l.Ink)
	}
}

// arrows are where lines have arrows, the way they are run.
func (s *Scheme) arrows(p *Projection, f func(x, y, dx, dy float64)) {
	for i := 0; i+3 < len(s.Runs); i += 4 {
		ax, ay := p.At(s.Runs[i], s.Runs[i+1])
		bx, by := p.At(s.Runs[i+2], s.Runs[i+3])
		dx, dy := unit(bx-ax, by-ay)
		for _, share := range [2]float64{0.3, 0.7} {
			f(ax+share*(bx-ax), ay+share*(by-ay), dx, dy)
		}
	}
}

// keep keeps labels off arrows and marks.
func (s *Scheme) keep(p *Projection, l *look.Look, labels *Labels) {
	if s == nil {
		return
	}
	about := func(x, y, r float64) { labels.Keep(image.Rect(int(x-r), int(y-r), int(x+r), int(y+r))) }
	s.arrows(p, func(x, y, _, _ float64) { about(x, y, 7*l.Scale) })
	for i := 0; i+1 < len(s.Risks); i += 2 {
		x, y := p.At(s.Risks[i], s.Risks[i+1])
		about(x, y, 9*l.Scale)
	}
}

// Warning marks a place where the fish would be at risk.
func Warning(dst *ebiten.Image, x, y float64, l *look.Look) {
	r := 7 * l.Scale
	look.Shape(dst, []float64{x, y - 1.25*r, x + 1.2*r, y + 0.9*r, x - 1.2*r, y + 0.9*r}, l.Panel)
	look.Shape(dst, []float64{x, y - r, x + r, y + 0.75*r, x - r, y + 0.75*r}, l.Alarm)
	look.Stroke(dst, x, y-0.45*r, x, y+0.2*r, 1.6*l.Scale, l.OnIt)
	look.Disc(dst, x, y+0.5*r, 1.1*l.Scale, l.OnIt)
}
