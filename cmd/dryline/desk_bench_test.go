package main

import (
	"math"
	"testing"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/order"
	"dryline/sim/record"
	"dryline/sim/remake"
)

// BenchmarkRemake works the default survey up again with another factor and paints its
// mosaic; lines logged are some 25 minutes. It reports the seconds that 20 minutes take.
func BenchmarkRemake(b *testing.B) {
	ex, err := scenarios.Find(scenarios.Default)
	if err != nil {
		b.Fatal(err)
	}
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		b.Fatal(err)
	}
	backing, err := record.OnDisk(b.TempDir())
	if err != nil {
		b.Fatal(err)
	}
	store := record.New(backing)
	defer store.Close()
	sim.KeepLogged(s, store)
	s.Desk.Unpainted = true
	s.AttachMate()
	for !s.Done() {
		s.Advance(500)
	}
	logged := 0.0
	for _, l := range s.Desk.Lines {
		logged += l.End - l.Start
	}
	if err := s.Give(order.Command{Do: order.ReworkFactor, Value: 0.97}); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if err := s.Give(order.Command{Do: order.Rework}); err != nil {
			b.Fatal(err)
		}
		d := s.Desk
		set := d.Reviewed(&d.Worked.Review, math.Inf(1))
		m, err := d.NewMosaic(&d.Worked.Review, set.MosaicX, set.MosaicY)
		if err != nil {
			b.Fatal(err)
		}
		work := remake.Work{Record: store, Lines: d.LatestLines(), Channel: set.MosaicChannel, Prior: s.Prior(set.MosaicChannel)}
		if err := work.Mosaic(m); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N)*1200/logged, "s/20min")
	b.ReportMetric(logged/60, "min-logged")
}
