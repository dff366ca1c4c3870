package app

import (
	"runtime"
	"testing"
	"time"
	"weak"

	"dryline/sim/order"

	"github.com/ebitenui/ebitenui/event"
	"github.com/hajimehoshi/ebiten/v2"
)

// A watch that is over and whose debrief is left holds no memory any more: the
// sea floor, the record and the pictures of it go before the next is begun.
func TestAWatchThatIsLeftIsLetGo(t *testing.T) {
	event.ExecuteDeferred() // of screens that other tests built and never updated: a window has none left over
	for _, ends := range []bool{true, false} {
		g, w, h := begun(t, newShelf())
		dst := ebiten.NewImage(1280, 720)
		draw := func() {
			h.update(t, g, time.Second/60)
			g.Draw(dst)
		}
		for range 30 {
			draw()
		}
		w.side.show(g, tabWindow)
		draw()
		watch, brief := weak.Make(w.Watch), weak.Make(w.brief)
		if ends {
			w.end(g)
			w.give(order.Command{Do: order.LogOn, Line: "A"})
			w.pace.set(1, false)
			for range 120 {
				draw()
			}
			w.give(order.Command{Do: order.Finish})
			draw()
			draw()
			desk, ok := g.screen.(*Desk)
			if !ok {
				t.Fatalf("%T, want the desk", g.screen)
			}
			desk.handIn(g)
			for range 8 {
				draw()
			}
			if _, ok := g.screen.(*Debrief); !ok {
				t.Fatalf("%T, want the debrief", g.screen)
			}
		}
		w = nil
		if ends { // the debrief has done with the watch
			for range 3 {
				draw()
				runtime.GC()
			}
			if watch.Value() != nil {
				t.Error("the debrief keeps the watch")
			}
		}
		g.Go(NewChoose())
		for range 5 {
			draw()
		}
		for range 3 {
			runtime.GC()
		}
		if watch.Value() != nil || brief.Value() != nil {
			t.Errorf("ended %v: watch held %v, brief held %v", ends, watch.Value() != nil, brief.Value() != nil)
		}
		dst.Deallocate()
	}
}

// Of the pings it has shown the window keeps no rows.
func TestOnlyWhatIsNeededIsKept(t *testing.T) {
	g := NewGame(newShelf(), false)
	w := watchUnderWay(t, g, "disused-anchorage", 20)
	for range 3 {
		w.crew.Pass(1, 1e12)
	}
	fresh := w.crew.Rows(nil)
	for c := range w.fall.pictures {
		if p := &fresh[len(fresh)-1]; !heardAll(p.Rows[c]) || echoless(p, c) {
			t.Errorf("channel %d is not shown", c)
		}
	}
	for i := range w.fall.history {
		if p := &w.fall.history[i]; p.Rows != nil || p.Plain != nil {
			t.Fatal("rows are held that were shown")
		}
	}
}

func heardAll(sides [2][]uint8) bool { return len(sides[0]) > 0 && len(sides[1]) > 0 }
