package app

import (
	"testing"

	"dryline/sim/order"
)

// deskStations is how many pieces the desk's work has.
const deskStations = 7

// atTheDesk is the desk of a watch with a line logged and contacts on it, over or not.
func atTheDesk(t testing.TB, g *Game, over bool) *Desk {
	t.Helper()
	w := watchUnderWay(t, g, "first-line", 30)
	w.give(order.Command{Do: order.LogOff})
	if over {
		w.give(order.Command{Do: order.Finish})
	}
	w.view = w.crew.View()
	g.Resize(1280, 720, 1)
	g.screen = w
	g.ui.Container = w.Build(g, g.area())
	w.goToDesk(g)
	d, ok := g.next.(*Desk)
	if !ok {
		t.Fatalf("there is no desk: %q", g.Notice)
	}
	g.screen, g.next = d, nil
	g.ui.Container = d.Build(g, g.area())
	return d
}

// settleDesk has the desk work until nothing is under way at the bench.
func settleDesk(t testing.TB, g *Game, d *Desk) {
	t.Helper()
	for range 200 {
		for _, s := range d.stations {
			s.work(g)
		}
		if !d.wait() {
			d.Build(g, g.area())
			return
		}
	}
	t.Fatal("the bench is never done")
}

// wait waits for what is under way at the bench, and reports whether anything was.
func (d *Desk) wait() (any bool) {
	for _, s := range d.stations {
		switch s := s.(type) {
		case *recordStation:
			if s.task != nil {
				s.task.Wait()
				any = true
			}
		case *mosaicStation:
			if s.task != nil {
				s.task.Wait()
				any = true
			}
		case *contactStation:
			if s.task != nil {
				s.task.Wait()
				any = true
			}
		case *holidayStation:
			if s.task != nil {
				s.task.Wait()
				any = true
			}
		case *reportStation:
			if s.task != nil {
				s.task.Wait()
				any = true
			}
		}
	}
	return any
}
