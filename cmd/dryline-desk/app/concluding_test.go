package app

import (
	"testing"
)

// While a debrief is made another screen is shown: on the desktop it is made on a thread of its own, on a page after that
// screen has been drawn. What was said meanwhile is said on.
func TestADebriefIsMadeBehindAScreen(t *testing.T) {
	for _, apart := range []bool{true, false} {
		g := NewGame(&memory{}, false)
		d := debriefed(t, g, 5)
		g.Apart = apart
		begun, let := make(chan bool, 1), make(chan bool, 1)
		c := newConcluding(g, "The first line", func() *Debrief {
			begun <- true
			<-let
			return d
		})
		g.screen, g.next = c, nil
		if apart {
			<-begun
			for range 5 { // the window goes on while it is made
				c.Update(g)
			}
		} else {
			c.Update(g)
			c.Update(g)
			select {
			case <-begun:
				t.Error("on a page it is made before the screen has been drawn")
			default:
			}
		}
		if g.next != nil {
			t.Fatalf("apart %v: %T before it is made", apart, g.next)
		}
		g.Notice = "The session is kept."
		let <- true
		for g.next == nil {
			c.Update(g)
		}
		if g.next != Screen(d) || g.parting != "The session is kept." {
			t.Errorf("apart %v: it leads to %T and says %q", apart, g.next, g.parting)
		}
	}
}
