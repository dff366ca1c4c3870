package plan

import (
	"math"
	"testing"
)

// IHO C-13, chapter 4, 2.3.10.3: 5 m of the vessel, 10 of the fish at 100 m of layback, at 150 m come to 11.4 m of one
// standard deviation (11.35), of which 2.45 hold 95 %.
func TestContactError(t *testing.T) {
	var p Placing
	if got := ContactError(5, p.ByLayback(100), 150) / 2.45; math.Abs(got-11.35) > 0.02 {
		t.Errorf("%.2f m, published 11.4", got)
	}
	// NOAA Field Procedures Manual, 1.5.7.1: a degree of heading is 1.75 m in 100.
	p.Heading = math.Pi / 180
	if got := p.ByBeacon(100); math.Abs(got-1.75) > 0.01 {
		t.Errorf("%.3f m to a degree and 100 m, published 1.75", got)
	}
}

// IHO C-13, chapter 4, 2.3.8: errors of 10, 5, 1 and 1.5 m leave 21 m of an overlap of 24.
func TestUsableOverlap(t *testing.T) {
	if got := UsableOverlap(24, 10, 5, 1, 1.5); math.Abs(got-21) > 0.5 {
		t.Errorf("%.1f m, published 21", got)
	}
	if got := UsableOverlap(8, 10); got != 0 {
		t.Errorf("%.1f m are left of what the errors eat up", got)
	}
}

// What is wanted decides what the fish is to be placed by.
func TestAccuracyAsksForABeacon(t *testing.T) {
	for _, c := range []struct {
		wanted float64
		beacon bool
		state  State
	}{{0, false, Holds}, {40, false, Holds}, {5, false, Fails}, {4.6, true, Watch}, {2, true, Fails}} {
		s := plain(600, 400)
		s.Range, s.Height, s.Spacing = 75, 8, 100
		s.Accuracy = c.wanted
		s.Placing = Placing{Vessel: 0.5, Heading: 0.3 * math.Pi / 180, Beacon: c.beacon, BeaconNoise: 0.1, BeaconShare: 0.003}
		p, err := Make(s)
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, k := range p.Checks {
			if k.ID == "position" {
				found = true
				if k.State != c.state {
					t.Errorf("%g m wanted, beacon %t: %s: %s", c.wanted, c.beacon, k.State, k.Says)
				}
			}
		}
		if !found {
			t.Error("nothing is said of positions")
		}
	}
}
