package panes

import (
	"math"
	"testing"

	"dryline/scenarios"
	"dryline/seabed/units"
)

// tows are cables as the counter, the pressure sensor and the desk have them:
// metres.
var tows = []struct {
	name                 string
	long, aft, depth, up float64 // the sheave is 5.8 m astern
}{
	{"short", 16.1, 17.3, 8.9, 2.2},
	{"aground on a bank", 76.4, 77.7, 15.7, 2.2},
	{"aground, all out", 120.6, 121.5, 17.9, 2.2},
	{"much more out than the way to the fish", 120, 40, 15, 2.2},
	{"less out than the way to the fish", 30, 60, 20, 2.2},
	{"under the sheave", 20, 5.8, 12, 2.2},
	{"ahead of the sheave", 30, 2, 12, 2.2},
	{"at the surface", 25, 30, 0, 2.2},
}

const sheaveAft = 5.8

// No point of the cable is higher than the sheave, it falls all the way to the
// fish and ends there; it leaves the sheave by half the slope of the chord at
// least, so that it is in the water within twice the way that the chord has to
// it.
func TestTowedCableFallsFromTheSheave(t *testing.T) {
	for _, tow := range tows {
		p := hang(nil, sheaveAft, tow.up, tow.aft, -tow.depth, tow.long, false, math.Inf(-1))
		n := len(p)
		if p[0] != sheaveAft || p[1] != tow.up || math.Abs(p[n-2]-tow.aft) > 1e-9 || math.Abs(p[n-1]+tow.depth) > 1e-9 {
			t.Errorf("%s: the cable goes from %g, %g to %g, %g", tow.name, p[0], p[1], p[n-2], p[n-1])
		}
		slope := (tow.depth + tow.up) / (tow.aft - sheaveAft)
		for i := 2; i < n; i += 2 {
			if p[i+1] > p[i-1]+1e-9 {
				t.Errorf("%s: it rises from %.2f to %.2f m", tow.name, p[i-1], p[i+1])
			}
			if tow.aft <= sheaveAft {
				continue
			}
			if p[i] < p[i-2]-1e-9 || p[i] > tow.aft+1e-9 {
				t.Errorf("%s: it is %.2f m astern after %.2f, the fish %.2f", tow.name, p[i], p[i-2], tow.aft)
			}
			if most := tow.up - slope/2*(p[i]-sheaveAft); p[i+1] > most+1e-9 {
				t.Errorf("%s: %.2f m astern it is at %.2f m, want at most %.2f", tow.name, p[i], p[i+1], most)
			}
		}
	}
}

// A slack cable hangs below the straight line from sheave to fish and does not
// go into the floor.
func TestSlackCableHangs(t *testing.T) {
	for _, tow := range tows {
		floor := -tow.depth - fishRadius
		p := hang(nil, sheaveAft, tow.up, tow.aft, -tow.depth, tow.long, true, floor)
		hangs := 0.0
		for i := 0; i < len(p); i += 2 {
			share := float64(i) / float64(len(p)-2)
			if p[i+1] < floor-1e-9 {
				t.Errorf("%s: at %.2f m it is in the floor at %.2f", tow.name, p[i+1], floor)
			}
			// Below the chord: to the right of the way from sheave to fish.
			dx, dy := tow.aft-sheaveAft, -tow.depth-tow.up
			side := dx*(p[i+1]-tow.up) - dy*(p[i]-sheaveAft)
			if dx > 0 && side > 1e-6 {
				t.Errorf("%s: at %.0f %% of its way it lies over the chord", tow.name, 100*share)
			}
			hangs = max(hangs, -side)
		}
		if chord := math.Hypot(tow.aft-sheaveAft, tow.depth+tow.up); tow.aft > sheaveAft && tow.long > chord+0.1 && hangs == 0 {
			t.Errorf("%s: it is as straight as if it were taut", tow.name)
		}
	}
}

// Towed, the bow is to the side that the steady equations of a towed cable have
// it on (Ablow and Schechter, Ocean Engng 10, 1983; Berteaux, Buoy Engineering,
// 1976; solved by tow.Spec.Steady), and the middle of the cable is within a tenth
// of the chord of theirs.
func TestTowedCableBowsAsTheSteadyOne(t *testing.T) {
	const knot = units.Knot
	for _, name := range []string{"first-line", "disused-anchorage", "sloping-bank"} {
		ex, err := scenarios.Find(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, out := range []float64{15, 30, 60, 100} {
			const speed = 4.2 * knot
			whole := ex.Tow.Steady(speed, out, 0)
			dx, dy := whole.Layback, -whole.Depth
			chord := math.Hypot(dx, dy)
			most := func(p []float64) (bow float64) {
				for i := 0; i+1 < len(p); i += 2 {
					bow = max(bow, (dx*p[i+1]-dy*p[i])/chord)
				}
				return bow
			}
			// In uniform flow the lower end of a long cable lies as a short one.
			var steady []float64
			for i := 1; i < 20; i++ {
				lower := ex.Tow.Steady(speed, out*float64(i)/20, 0)
				steady = append(steady, dx-lower.Layback, dy+lower.Depth)
			}
			got, want := most(hang(nil, 0, 0, dx, dy, out, false, math.Inf(-1))), most(steady)
			if want <= 0 || math.Abs(got-want) > 0.1*chord {
				t.Errorf("%s, %.0f m out: bows up by %.2f m, the steady cable by %.2f, over a chord of %.1f", name, out, got, want, chord)
			}
		}
	}
}
