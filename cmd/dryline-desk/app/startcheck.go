package app

import (
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/panes"

	"github.com/hajimehoshi/ebiten/v2"
)

// startCheck finds out, while an exercise is chosen, whether the machine draws fast enough for a watch: for some
// seconds it draws what costs most of one where nobody sees it, and counts the pictures.
type startCheck struct {
	hidden  *ebiten.Image
	section panes.Section
	spent   float64 // seconds
	frames  int
	rate    float64 // pictures a second, once known
}

const (
	checkWaits = 1.0 // seconds before it counts: the first pictures compile shaders
	checkTakes = 3.0 // seconds that it counts for
	fewFrames  = 20  // pictures a second under which a watch is no pleasure: our own choice
)

// pass counts a frame.
func (c *startCheck) pass(passed float64) {
	if c.rate > 0 {
		return
	}
	c.spent += passed
	if c.spent > checkWaits {
		c.frames++
	}
	if c.spent > checkWaits+checkTakes {
		c.rate = float64(c.frames) / (c.spent - checkWaits)
		if c.hidden != nil {
			c.hidden.Deallocate()
			c.hidden = nil
		}
	}
}

// draw draws the water of the view from the side as large as the window.
func (c *startCheck) draw(g *Game) {
	if c.rate > 0 || g.size.Empty() {
		return
	}
	if c.hidden == nil || c.hidden.Bounds() != g.size {
		if c.hidden != nil {
			c.hidden.Deallocate()
		}
		c.hidden = ebiten.NewImage(g.size.Dx(), g.size.Dy())
	}
	crests := make([]float64, 96)
	for i := range crests {
		crests[i] = 0.3 * math.Sin(float64(i)/3+c.spent)
	}
	c.section.DrawWater(c.hidden, image.Rectangle{Max: g.size.Size()}, g.Look, &panes.Side{
		Bow: 5, Stern: -5, SheaveAft: 5, SheaveUp: 2, FishAft: 25, FishDepth: 12, Height: 6, Now: c.spent,
		Sea: panes.Crests{From: 40, Step: 1.5, Up: crests}, HangsAt: float64(g.size.Dx()) / 2,
	})
}

// says tells of a machine that draws too slowly, empty if it does not or it is not known yet.
func (c *startCheck) says() string {
	if c.rate == 0 || c.rate >= fewFrames {
		return ""
	}
	return fmt.Sprintf("This machine draws %.0f pictures a second, and a watch wants %d: close other programs, make the window smaller, or switch graphics acceleration on before the lesson.", min(math.Round(c.rate), fewFrames-1), fewFrames)
}
