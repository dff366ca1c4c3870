package vessel

import (
	"math"
	"testing"
)

// Blendermann (1994), research vessel, 20 m^2 in front, 60 m^2 of side, 10 m/s:
// forces computed outside this project from the published formula and table.
func TestBlendermann(t *testing.T) {
	for _, test := range []struct{ from, x, y float64 }{
		{0, -673.2, 0}, {30, -707.9, 1895.0}, {60, -408.7, 3282.3}, {90, 0, 3121.2},
		{120, 477.9, 3247.5}, {150, 827.8, 1874.9}, {180, 795.6, 0},
	} {
		forward, starboard := ResearchVessel.Force(10, test.from*deg, 20, 60)
		if math.Abs(forward-test.x) > 0.1 || math.Abs(-starboard-test.y) > 0.1 {
			t.Errorf("%g deg off the bow: got %.1f N forward, %.1f N to leeward, want %.1f, %.1f", test.from, forward, -starboard, test.x, test.y)
		}
		// From the other side the same, mirrored.
		f, s := ResearchVessel.Force(10, -test.from*deg, 20, 60)
		if math.Abs(f-forward) > 1e-9 || math.Abs(s+starboard) > 1e-9 {
			t.Errorf("%g deg to port: %.1f, %.1f; not the mirror image", test.from, f, s)
		}
	}
}

// A vessel lying in a beam wind drifts to leeward, whichever side it is on.
func TestDriftIsToLeeward(t *testing.T) {
	for _, wind := range []float64{9, -9} {
		h := Hull{Spec: launch(), Surge: 2}
		for range 600 {
			h.Surge = 2
			h.Step(0.1, Orders{}, Weather{WindX: wind})
		}
		if h.Leeway*wind <= 0 {
			t.Errorf("wind of %g m/s towards the east: leeway %.3f m/s to starboard of a hull heading north", wind, h.Leeway)
		}
		crab := math.Atan(math.Abs(h.Leeway)/2) / deg
		if crab < 0.5 || crab > 8 {
			t.Errorf("crab angle %.2f deg at 9 m/s of wind, want a few degrees", crab)
		}
	}
}
