package sea

import (
	"math"
	"testing"
)

// M2 lasts 12.4206 hours (Schureman 1940, table 2; 12 h 25 min in every
// almanac): high water comes back then, low water half way, and the fastest
// rise is 2 pi a/T.
func TestTide(t *testing.T) {
	if math.Abs(M2/3600-12.4206) > 0.5e-4 {
		t.Errorf("got M2 %.5f h, want 12.4206", M2/3600)
	}
	tide := Tide{Amplitude: 1.8, High: 3600}
	for _, test := range []struct {
		name             string
		at, height, rate float64
	}{
		{"high water", 3600, 1.8, 0},
		{"low water", 3600 + M2/2, -1.8, 0},
		{"next high water", 3600 + M2, 1.8, 0},
		{"half flood", 3600 - M2/4, 0, 2 * math.Pi * 1.8 / M2},
		{"a sixth of the ebb", 3600 + M2/12, 1.8 * math.Cos(math.Pi/6), -2 * math.Pi * 1.8 / M2 / 2},
	} {
		if got := tide.Height(test.at); math.Abs(got-test.height) > 1e-9 {
			t.Errorf("%s: got %.6f m, want %.6f", test.name, got, test.height)
		}
		if got := tide.Rate(test.at); math.Abs(got-test.rate) > 1e-12 {
			t.Errorf("%s: got %.3e m/s, want %.3e", test.name, got, test.rate)
		}
	}
	if got := (Tide{Amplitude: 1, Period: 100}).Height(50); math.Abs(got+1) > 1e-12 {
		t.Errorf("own period: got %g m half way, want -1", got)
	}
}
