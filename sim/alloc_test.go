package sim_test

import (
	"testing"

	"dryline/sim"
	"dryline/sim/simtest"
	"dryline/vessel/nav"
)

// Once everything has its size, a ping costs no allocation from the tick it is sent in to
// the desk's bottom track and levelling and to observers who may see its truth. What the
// desk keeps of a line, rows and mosaic, is left out, and so is the coach, who speaks once a second.
func TestAPingAllocatesNothing(t *testing.T) {
	ex := simtest.Rough(t)
	ex.Seabed.Objects = nil // workspaces grow until they have met the largest: see package sonar
	s, err := sim.New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.Workers = 1 // helpers come and go with every batch
	pings, readings := 0, 0
	s.Observe(sim.Observer{Truth: true, Ping: func(*sim.Ping) { pings++ }, Reading: func(*nav.Reading) { readings++ }})
	for y := 0.0; y < s.Exercise.Seabed.North; y += 16 { // new floor costs its tiles
		s.World().Build(0, y, s.Exercise.Seabed.East, y)
	}
	s.Advance(900)
	before := pings
	const ticks, runs = 20, 60
	allocated := testing.AllocsPerRun(runs, func() { s.Advance(ticks) })
	per := float64(pings-before) / (runs + 1)
	t.Logf("%.2f allocations in %d ticks with %.1f pings", allocated, ticks, per)
	if per < 20 || readings == 0 {
		t.Fatalf("%.1f pings in %d ticks", per, ticks)
	}
	if allocated > 0 {
		t.Errorf("%.0f allocations in %d ticks with %.1f pings, want none", allocated, ticks, per)
	}
}
