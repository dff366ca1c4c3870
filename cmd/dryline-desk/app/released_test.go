package app

import (
	"runtime"
	"testing"
	"time"
	"weak"

	"dryline/sim"
	"dryline/sim/order"

	"github.com/hajimehoshi/ebiten/v2"
)

// A watch that is over and whose debrief is left holds no memory any more: the
// sea floor, the record and the pictures of it go before the next is begun.
func TestAWatchThatIsLeftIsLetGo(t *testing.T) {
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
		watch, session := weak.Make(w), weak.Make(w.exercise)
		if ends {
			w.end(g)
			w.give(order.Command{Do: order.Finish})
			draw()
			draw()
			if _, ok := g.screen.(*Debrief); !ok {
				t.Fatalf("%T, want the debrief", g.screen)
			}
		}
		w = nil
		g.Go(NewChoose())
		for range 5 {
			draw()
		}
		for range 3 {
			runtime.GC()
		}
		if watch.Value() != nil || session.Value() != nil {
			t.Errorf("ended %v: watch held %v, exercise held %v", ends, watch.Value() != nil, session.Value() != nil)
		}
		dst.Deallocate()
	}
}

// With the log on the window keeps what its page needs and no more: of the rows
// those of the mosaic's channel, of the pings it has shown no rows at all.
func TestOnlyWhatIsNeededIsKept(t *testing.T) {
	g := NewGame(newShelf(), false)
	w := watchUnderWay(t, g, "disused-anchorage", 20)
	for range 3 {
		w.crew.Pass(1, 1e12)
	}
	fresh := w.crew.Rows(nil)
	for c := range w.falls {
		if p := &fresh[len(fresh)-1]; !heardAll(p.Rows[c]) || echoless(p, c) {
			t.Errorf("channel %d is not shown", c)
		}
	}
	for i := range w.history {
		if p := &w.history[i]; p.Rows != nil || p.Plain != nil {
			t.Fatal("rows are held that were shown")
		}
	}
	w.crew.With(func(s *sim.Session) error {
		line := s.Desk.OpenLine()
		for c, rows := range line.Rows {
			want := 1
			if c == s.Exercise.Desk.MosaicChannel {
				want = len(line.Pings)
			}
			if len(rows) != want || want > 1 && want < 100 {
				t.Errorf("channel %d: %d rows of %d pings, want %d", c, len(rows), len(line.Pings), want)
			}
		}
		return nil
	})
}

func heardAll(sides [2][]uint8) bool { return len(sides[0]) > 0 && len(sides[1]) > 0 }
