package app

import (
	"image"

	"dryline/sim/coach"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Screen is one state of the window.
type Screen interface {
	// Build lays out the controls for a size and a look.
	Build(g *Game, size image.Rectangle) *widget.Container
	// Update takes input and moves on; it runs after the controls have had
	// theirs.
	Update(g *Game) error
	// Draw draws what lies under the controls.
	Draw(g *Game, dst *ebiten.Image)
	// Over draws what lies over them.
	Over(g *Game, dst *ebiten.Image)
	// Keys are the keys of the screen, for the overlay.
	Keys() []Key
	// Foot returns the screen's lines for the foot of the window.
	Foot(g *Game) Foot
	// Inspect tells what the screen shows to those who cannot see it: its name, where
	// its panes lie, and its state.
	Inspect() (name string, panes map[string]Rect, state any)
	// Late reports that the screen falls behind the pace of the water.
	Late() bool
	// UnderWay reports a session under way, which Close keeps.
	UnderWay() bool
	// Keep writes down what would be lost if the window went without a word.
	Keep()
	// Close is called when the window or the screen closes.
	Close(g *Game)
}

// Foot holds the lines of a screen for the foot of the window.
type Foot struct {
	Hint     string // of the coach, if its page is turned away
	Severity coach.Severity
	Pending  string // which orders are
	Next     string // what comes next
}

// quiet is embedded by screens without a session: they have little to do of their
// own accord.
type quiet struct{}

func (quiet) Over(*Game, *ebiten.Image) {}
func (quiet) Foot(*Game) Foot           { return Foot{} }
func (quiet) Late() bool                { return false }
func (quiet) UnderWay() bool            { return false }
func (quiet) Keep()                     {}
func (quiet) Close(*Game)               {}
