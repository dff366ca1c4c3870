package app

import (
	"runtime"
	"testing"

	"dryline/scenarios"
	"dryline/sim/order"

	"github.com/hajimehoshi/ebiten/v2"
)

// One frame at 1920x1080 with waterfall and mosaic running: a ping and a tile of
// the mosaic every frame, three times what comes at the pace of the water. What
// the processor does in Update and Draw, the engine's own work and the graphics
// card apart. Nothing is drawn for real without a window: the commands are made
// and thrown away.
func BenchmarkFrame(b *testing.B) {
	g := NewGame(&memory{}, false)
	g.Resize(1920, 1080, 1)
	w := watchUnderWay(b, g, "disused-anchorage", 60)
	for range 20 {
		w.crew.Pass(1, 1e12)
	}
	rows := w.crew.Rows(nil)
	w.crew.SetRate(0, true)
	g.next = w
	dst := ebiten.NewImage(1920, 1080)
	frame(g, dst)
	tiles := w.crew.Tiles(1000)
	if len(rows) < 100 || len(tiles) < 10 {
		b.Fatalf("%d pings and %d tiles to show, want more", len(rows), len(tiles))
	}
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		w.showRow(&rows[n%len(rows)])
		w.chart.mosaic.Put(tiles[n%len(tiles)])
		n++
		g.screen.Update(g)
		g.ui.Update()
		g.Draw(dst)
	}
}

// What is kept for the window does not grow with the watch: over a quarter of an
// hour of it the memory in use stays within bounds that tracks and ping records alone
// account for.
func TestMemoryIsSteadyOverAQuarterOfAnHour(t *testing.T) {
	ex, err := scenarios.Find("first-line")
	if err != nil {
		t.Fatal(err)
	}
	ex.Plan.TimeLimit = 3600
	g := NewGame(&memory{}, false)
	s, err := Start(g, ex)
	if err != nil {
		t.Fatal(err)
	}
	w := s.(*Duty)
	w.fall.pictures = nil // their textures are of one size; without a window the uploads would queue up
	// Round and round the two lines, log on all the way.
	w.give(order.Command{Do: order.LogOn, Line: "A"})
	inUse := func() float64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc) / 1e6
	}
	pass := func(minutes int) {
		for n := range minutes * 60 {
			w.crew.Pass(1, 1e12)
			w.view = w.crew.View()
			w.takeRows()
			w.crew.Tiles(1000)
			switch n % 600 {
			case 300:
				w.give(order.Command{Do: order.LogOff}, order.Command{Do: order.Turn, Line: "B", Reversed: true, Pattern: ex.Plan.Turn})
			case 360:
				w.give(order.Command{Do: order.LogOn, Line: "B", Reversed: true})
			case 540:
				w.give(order.Command{Do: order.LogOff}, order.Command{Do: order.Turn, Line: "A", Pattern: ex.Plan.Turn})
			case 599:
				w.give(order.Command{Do: order.LogOn, Line: "A"})
			}
		}
	}
	pass(5) // the ring of the waterfall fills, the ground is painted
	before := inUse()
	pass(10)
	grown := inUse() - before
	t.Logf("%.1f MB more", grown)
	if grown > 13 {
		t.Errorf("%.0f MB more in use after fifteen minutes than after five, want no more than tracks and ping records", grown)
	}
	if w.view.Done {
		t.Error("the exercise ended early")
	}
}
