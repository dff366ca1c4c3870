package app

import (
	"testing"
	"time"
)

// hand is a clock that is set by hand.
type hand struct{ at time.Time }

func (h *hand) now() time.Time { return h.at }

// handed gives a window a clock that is set by hand, and the crew of its watch
// the same, so that no machine is too slow for a test.
func handed(g *Game) *hand {
	h := &hand{time.Unix(1e9, 0)}
	g.Clock = h.now
	return h
}

// update lets a window's time pass in one update, as [Game.Update] does.
func (h *hand) update(t testing.TB, g *Game, by time.Duration) {
	t.Helper()
	h.at = h.at.Add(by)
	if w, ok := g.screen.(*Duty); ok {
		w.owner.SetNow(h.now)
	}
	if err := g.Update(); err != nil {
		t.Fatal(err)
	}
}
