package app

import (
	"image"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// concluding is the screen of a survey that was handed in until its debrief is made: of a long one that takes a
// second, on a page several.
type concluding struct {
	quiet
	title string
	make  func() *Debrief
	apart bool // it is made on another thread
	made  chan *Debrief
	seen  int // updates; what is made on this one is made when the screen has been drawn
}

func newConcluding(g *Game, title string, debrief func() *Debrief) *concluding {
	c := &concluding{title: title, make: debrief, apart: g.Apart, made: make(chan *Debrief, 1)}
	if c.apart {
		go func() { c.made <- c.make() }()
	}
	return c
}

// Build implements [Screen].
func (c *concluding) Build(*Game, image.Rectangle) *widget.Container { return widget.NewContainer() }

// Update implements [Screen].
func (c *concluding) Update(g *Game) error {
	if c.seen++; !c.apart && c.seen == 3 {
		c.made <- c.make()
	}
	select {
	case d := <-c.made:
		g.remember(&d.report)
		if g.Notice != "" {
			g.sayThen(g.Notice)
		}
		g.Go(d)
	default:
	}
	return nil
}

// Draw implements [Screen].
func (c *concluding) Draw(g *Game, dst *ebiten.Image) {
	l, x := g.Look, float64(g.Look.Px(20))
	look.Write(dst, look.Fitted(c.title, l.Title, g.size.Dx()-2*l.Px(20)), l.Title, x, float64(l.Px(16)), l.Ink, look.Left)
	y := float64(l.Px(30)) + look.Tall(l.Title)
	for _, line := range wrapped("The debrief is being made: what the desk has is held against what truly lies there.", l.Body, float64(g.size.Dx()-2*l.Px(20))) {
		look.Write(dst, line, l.Body, x, y, l.Ink, look.Left)
		y += look.Tall(l.Body)
	}
}

// Keys implements [Screen].
func (c *concluding) Keys() []Key { return nil }

// Inspect implements [Screen].
func (c *concluding) Inspect() (string, map[string]Rect, any) { return "concluding", nil, nil }
