package sea

import (
	"math"
	"testing"
)

// A worked example of a coastal engineering course: wind 15 m/s, fetch 200 km
// gives Hm0 3.42 m and Tp 9.0 s; the sea is full at 5.573 m and 12.43 s, which
// takes about 529 km.
func TestGrowWorkedExample(t *testing.T) {
	hs, tp := Grow(15, 200e3, 0)
	if math.Abs(hs-3.42) > 0.01 || math.Abs(tp-9.0) > 0.01 {
		t.Errorf("200 km: got %.3f m %.3f s, want 3.42 m 9.0 s", hs, tp)
	}
	for _, fetch := range []float64{0, 540e3, 2000e3} {
		hs, tp = Grow(15, fetch, 0)
		if math.Abs(hs-5.573) > 0.001 || math.Abs(tp-12.43) > 0.005 {
			t.Errorf("fetch %g: got %.4f m %.4f s, want 5.573 m 12.43 s", fetch, hs, tp)
		}
	}
	if hs, _ := Grow(15, 520e3, 0); hs >= 5.57 {
		t.Errorf("520 km: got %.4f m, want less than the full 5.573", hs)
	}
}

// The fetch laws of Hasselmann et al. (1973) as the Shore Protection Manual
// (1984) words them, worked out outside this project.
func TestGrowFetch(t *testing.T) {
	for _, test := range []struct{ wind, km, hs, tp float64 }{
		{5, 5, 0.1806, 1.825}, {10, 1, 0.1615, 1.345}, {10, 5, 0.3612, 2.299},
		{10, 10, 0.5108, 2.897}, {10, 50, 1.1423, 4.954}, {10, 100, 1.6154, 6.241},
		{15, 20, 1.0837, 4.178}, {15, 200, 3.4268, 9.001}, {20, 50, 2.2845, 6.241},
	} {
		hs, tp := Grow(test.wind, test.km*1e3, 0)
		if math.Abs(hs-test.hs) > 0.6e-4 || math.Abs(tp-test.tp) > 0.6e-3 {
			t.Errorf("%g m/s over %g km: got %.5f m %.4f s, want %.4f %.3f", test.wind, test.km, hs, tp, test.hs, test.tp)
		}
	}
}

// The limit of depth against another law, that of the Shore Protection Manual
// (1984, eqs 3-39 and 3-40), whose limits of long fetch are
//
//	g H/UA^2 = 0.283 tanh(0.530 d^(3/4)) ,  g T/UA = 7.54 tanh(0.833 d^(3/8))
//
// with d = g h/UA^2 and UA = 0.71 U^1.23. Both are from memory and independent
// fits to different lakes: they are within a third of each other.
func TestGrowDepthAgainstShoreProtectionManual(t *testing.T) {
	for _, wind := range []float64{8, 12, 18} {
		for _, depth := range []float64{2, 5, 10} {
			hs, tp := Grow(wind, 0, depth)
			adjusted := 0.71 * math.Pow(wind, 1.23)
			d := gravity * depth / adjusted / adjusted
			wantHs := 0.283 * math.Tanh(0.53*math.Pow(d, 0.75)) * adjusted * adjusted / gravity
			wantTp := 7.54 * math.Tanh(0.833*math.Pow(d, 0.375)) * adjusted / gravity
			if math.Abs(hs-wantHs) > wantHs/3 {
				t.Errorf("%g m/s over %g m: got %.3f m, the other law %.3f", wind, depth, hs, wantHs)
			}
			if math.Abs(tp-wantTp) > wantTp/3 {
				t.Errorf("%g m/s over %g m: got %.3f s, the other law %.3f", wind, depth, tp, wantTp)
			}
		}
	}
}

// No peak is longer than the shallowest water can carry, a hard wind over half
// a metre included: Coastal Engineering Manual, EM 1110-2-1100, II-2, from
// memory. By the dispersion relation such a wave is 9.1 depths long.
func TestGrowPeriodLimit(t *testing.T) {
	for _, wind := range []float64{10, 25, 45} {
		for _, depth := range []float64{0.5, 2, 8} {
			_, tp := Grow(wind, 0, depth)
			length := 2 * math.Pi / WaveNumber(2*math.Pi/tp, depth)
			if most := 9.78 * math.Sqrt(depth/gravity); tp > most*(1+1e-12) || length > 9.11*depth {
				t.Errorf("%g m/s over %g m: got %.3f s, %.2f m long, want at most %.3f s", wind, depth, tp, length, most)
			}
		}
	}
}

// Less water, less wind or less fetch never makes more of a sea; plenty of
// water is deep; waves stay below the breaking height of 0.78 h (McCowan 1894)
// and no steeper than 1/7 (Michell 1893).
func TestGrowNeverTheWrongWay(t *testing.T) {
	for _, wind := range []float64{3, 8, 15, 25} {
		lastHs, lastTp := 0.0, 0.0
		for depth := 0.5; depth < 1000; depth *= 1.5 {
			hs, tp := Grow(wind, 300e3, depth)
			if hs < lastHs || tp < lastTp {
				t.Errorf("%g m/s: %g m of water made it less: %.3f m %.3f s after %.3f, %.3f", wind, depth, hs, tp, lastHs, lastTp)
			}
			lastHs, lastTp = hs, tp
			if hs > 0.78*depth {
				t.Errorf("%g m/s over %g m: got Hs %.3f, it would break", wind, depth, hs)
			}
			if length := 2 * math.Pi / WaveNumber(2*math.Pi/tp, depth); hs > length/7 {
				t.Errorf("%g m/s over %g m: got Hs %.3f on waves of %.3f m, too steep", wind, depth, hs, length)
			}
		}
		hs, tp := Grow(wind, 300e3, 0)
		if lastHs != hs || lastTp != tp {
			t.Errorf("%g m/s: over much water %.4f m %.4f s, want the deep %.4f %.4f", wind, lastHs, lastTp, hs, tp)
		}
	}
	if hs, tp := Grow(0, 1000, 10); hs != 0 || tp != 0 {
		t.Errorf("no wind: got %g m %g s, want none", hs, tp)
	}
}

func TestCheckGrowth(t *testing.T) {
	for _, test := range []struct {
		name               string
		wind, fetch, depth float64
		ok                 bool
	}{
		{"as measured", 10, 20e3, 30, true}, {"full and deep", 10, 0, 0, true},
		{"light air", 2, 0, 0, false}, {"hurricane", 40, 0, 0, false},
		{"pond", 15, 500, 0, false}, {"puddle", 20, 0, 1, false},
	} {
		if err := CheckGrowth(test.wind, test.fetch, test.depth); (err == nil) != test.ok {
			t.Errorf("%s: got %v", test.name, err)
		}
	}
}
