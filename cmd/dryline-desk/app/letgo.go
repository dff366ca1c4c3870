package app

import (
	"image"
	"runtime/debug"

	"github.com/ebitenui/ebitenui/event"
)

// letGo gives the memory back that the screen before took: a watch has sea floor,
// record and mosaic by the hundred megabytes.
func (g *Game) letGo() {
	g.resizing.settle(g, image.Pt(-1, -1))
	g.resizing = resizing{}
	// The library of controls handles deferred events from one list, whose tail keeps
	// what longer rounds left in it: every control of a watch and, through its handlers,
	// the watch. A longer round of nothing clears it.
	var nothing event.Event
	for range longestRound {
		nothing.AddHandler(func(any) {})
	}
	event.ExecuteDeferred()
	if g.Apart { // a page has no other thread for it
		go debug.FreeOSMemory()
	}
}

// longestRound is more than the events of building the fullest screen.
const longestRound = 4096
