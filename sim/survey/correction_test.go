package survey

import (
	"math"
	"testing"

	"dryline/vessel/nav"
)

// rms is the root mean square error of the fish's place under a way of placing
// it, and the largest.
func rms(t *testing.T, p Position, spec nav.Spec, w tow) (rms, largest float64) {
	t.Helper()
	s := steady
	s.Position, s.BeaconShare = p, spec.Beacon.Share
	sum, n := 0.0, 0
	follow(s, spec, w, 900, func(f Fix, truth nav.Truth) {
		if f.Fault != "" {
			t.Fatalf("%s, %.1f s: %s", p, f.Time, f.Fault)
		}
		e := math.Hypot(f.X-truth.FishX, f.Y-truth.FishY)
		sum, n, largest = sum+e*e, n+1, max(largest, e)
	})
	return math.Sqrt(sum / float64(n)), largest
}

// A layback with the wrong factor and a scattering beacon with outliers: the
// filter is better than either, and its gate lets no outlier through. In its
// steady state the filter's own variance is the positive root of P^2 - Q P - Q R
// = 0 before an answer (the scalar Riccati equation of a random walk; Bar-Shalom
// et al. 2001), which bounds what it should reach.
func TestFilteredBeatsBoth(t *testing.T) {
	w := tow{speed: 2, crab: 0.1, cable: 80, depth: 20, factor: 0.93} // the desk has 0.97
	spec := nav.Spec{
		GNSS:    nav.GNSSSpec{Noise: 0.02},
		Counter: nav.CounterSpec{Errors: nav.Errors{Step: 0.1}},
		Beacon:  nav.BeaconSpec{Timing: nav.Timing{Rate: 1}, Fitted: true, Share: 0.015},
	}
	clean, _ := rms(t, ByFiltered, spec, w)
	spec.Beacon.Outliers, spec.Beacon.OutlierSize, spec.Beacon.DropOuts = 0.08, 0.3, 0.1
	track, _ := rms(t, ByTrack, spec, w)
	beacon, worst := rms(t, ByBeacon, spec, w)
	filtered, largest := rms(t, ByFiltered, spec, w)
	t.Logf("rms: track %.2f m, beacon %.2f (worst %.1f), filtered %.2f (worst %.1f), without outliers %.2f", track, beacon, worst, filtered, largest, clean)
	if filtered > 0.5*track || filtered > 0.5*beacon {
		t.Errorf("got %.2f m, want well under track's %.2f and beacon's %.2f", filtered, track, beacon)
	}
	if filtered > 1.25*clean {
		t.Errorf("outliers cost %.3f m rms against %.3f without", filtered, clean)
	}
	slant := 82.0
	r := spec.Beacon.Share * spec.Beacon.Share * slant * slant
	p := (walk + math.Sqrt(walk*walk+4*walk*r)) / 2
	// The layback's error does not walk here, so the filter does no worse than it
	// believes; both axes count.
	if believed := math.Sqrt(2 * p); clean > believed {
		t.Errorf("without outliers got %.3f m rms, want at most the %.3f the filter believes", clean, believed)
	}
	if largest > 3 {
		t.Errorf("an outlier of 12 to 37 m moved the fish by %.1f m", largest)
	}
}

// A filter that began on an outlier finds its way: answers that go on lying
// outside the gate are believed.
func TestFilterBegunOnAnOutlier(t *testing.T) {
	var c correction
	r := nav.Reading{Fresh: nav.Beacon, Beacon: nav.BeaconReading{OK: true, X: 40, Y: -50, Slant: 80}}
	f := Fix{Y: -50}
	c.update(&f, &r, 0.01)
	if math.Abs(c.across-40) > 1e-9 {
		t.Fatalf("began at %.3f across, want 40", c.across)
	}
	r.Beacon.X = 1
	for i := range tooMany + 1 {
		r.Time = float64(i + 1)
		c.update(&f, &r, 0.01)
	}
	if math.Abs(c.across-1) > 1e-9 {
		t.Errorf("ended at %.3f across, want 1", c.across)
	}
}
