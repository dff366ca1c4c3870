package app

import (
	"testing"
	"time"

	"github.com/hajimehoshi/ebiten/v2"
)

// linesOf is the page of the lines of an exercise, with lines laid.
func linesOf(t testing.TB, g *Game, name string) *Laying {
	t.Helper()
	s := NewPrepare(exerciseNamed(t, name), NewChoose()).lines
	if g.size.Empty() {
		g.Resize(1280, 720, 1)
	}
	s.charts(g)
	settleLines(t, g, s)
	if s.plan() == nil {
		t.Fatalf("%s: no lines: %s", name, s.refused)
	}
	return s
}

// settleLines has the lines laid anew, and waits for it.
func settleLines(t testing.TB, g *Game, s *Laying) {
	t.Helper()
	s.dirty = true
	for began := time.Now(); s.dirty || s.task != nil; {
		if s.task != nil {
			s.task.Wait()
		}
		s.lay(g)
		if time.Since(began) > time.Minute {
			t.Fatal("the lines are never laid")
		}
	}
	s.stale = true
	s.lay(g)
}

func TestX(t *testing.T) {
	g := NewGame(&memory{}, false)
	began := time.Now()
	for _, name := range []string{"first-line", "disused-anchorage", "sloping-bank"} {
		s := linesOf(t, g, name)
		t.Log(time.Since(began))
		for _, c := range s.sentences() {
			text := c.heading + ": "
			for _, p := range c.pieces {
				switch {
				case p.figure != nil:
					text += "[" + p.figure.text + "] "
				case p.picker != nil:
					text += "<" + p.picker.says() + "> "
				default:
					text += p.words + " "
				}
			}
			t.Log(text)
		}
	}
	_ = ebiten.KeyA
}
