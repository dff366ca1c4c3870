package panes

import (
	"math"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// house is the top of the deckhouse in heights of the deck.
const house = 2.7

// deck is the height of the deck drawn: a share of the length, and below the
// sheave.
func (v *Side) deck() float64 { return min(0.11*(v.Bow-v.Stern), 0.8*max(v.SheaveUp, 1)) }

func (s *Section) vessel(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	sin := math.Sin(v.Pitch)
	at := func(forward, up float64) (x, y float64) { return f.x(-forward), f.y(up + v.Heave + forward*sin) }
	long := v.Bow - v.Stern
	free := v.deck()
	var p []float64
	for _, q := range [][2]float64{
		{v.Stern, free}, {v.Stern + 0.04*long, -v.Draft * 0.6}, {v.Stern + 0.15*long, -v.Draft}, {v.Bow - 0.2*long, -v.Draft},
		{v.Bow - 0.03*long, 0.3}, {v.Bow, free * 1.7}, {v.Stern + 0.55*long, free * 1.15},
	} {
		x, y := at(q[0], q[1])
		p = append(p, x, y)
	}
	look.Shape(dst, p, l.Hull)
	p = p[:0]
	for _, q := range [][2]float64{{v.Stern + 0.5*long, free}, {v.Stern + 0.5*long, free * house}, {v.Stern + 0.72*long, free * house}, {v.Stern + 0.78*long, free * 1.2}} {
		x, y := at(q[0], q[1])
		p = append(p, x, y)
	}
	look.Shape(dst, p, l.Hull)
	// The sheave hangs from a gallows at the stern.
	x0, y0 := at(-v.SheaveAft+0.1*long, free)
	x1, y1 := at(-v.SheaveAft, v.SheaveUp)
	look.Stroke(dst, x0, y0, x1, y1, 2.5*l.Scale, l.Hull)
	look.Ring(dst, x1, y1, 3.5*l.Scale, 1.5*l.Scale, l.Hull)
}

func (s *Section) fish(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	x, y := f.x(v.FishAft), f.y(-v.FishDepth)
	long := max(1.4*f.sx, 18*l.Scale) // to scale, and never too small to see
	thick := long * 0.17
	sin, cos := math.Sincos(v.FishPitch)
	var p []float64
	for _, q := range [][2]float64{
		{0.5, 0}, {0.42, 0.5}, {-0.3, 0.5}, {-0.42, 0.25}, {-0.5, 1.3}, {-0.5, -1.3}, {-0.42, -0.25}, {-0.3, -0.5}, {0.42, -0.5},
	} {
		ahead, up := q[0]*long, q[1]*thick
		p = append(p, x+ahead*cos-up*sin, y-ahead*sin-up*cos)
	}
	look.Shape(dst, p, l.Theme.Fish)
}
