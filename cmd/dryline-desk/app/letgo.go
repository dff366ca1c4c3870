package app

import (
	"runtime/debug"

	"github.com/ebitenui/ebitenui/event"
)

// letGo gives the memory back that the screen before took: a watch has sea floor,
// record and mosaic by the hundred megabytes.
func (g *Game) letGo() {
	// The library of controls works its events off through one list, and leaves in
	// the rest of it what it worked off in longer rounds: every control of a watch,
	// and by its doings the watch. A longer round of nothing puts that out.
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
