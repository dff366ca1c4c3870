package sea

import (
	"math"
	"testing"
)

func TestProfile(t *testing.T) {
	sheared, err := NewProfile([]Current{{2, 1, 0}, {10, 0.5, math.Pi / 2}, {20, 0, 0}})
	if err != nil {
		t.Fatal(err)
	}
	uniform, err := NewProfile([]Current{{0, 0.7, math.Pi}})
	if err != nil {
		t.Fatal(err)
	}
	// 7^-th root law: at 63/64, 1/2 and 1/128 of the depth above the bottom it is
	// a matter of powers of two.
	law := PowerLaw(Current{Speed: 1, Set: 0}, 128)
	for _, test := range []struct {
		name           string
		profile        Profile
		z, east, north float64
	}{
		{"still", Profile{}, -5, 0, 0},
		{"above the first point", sheared, 3, 0, 1},
		{"at a point", sheared, -2, 0, 1},
		{"half way", sheared, -6, 0.25, 0.5},
		{"at the second", sheared, -10, 0.5, 0},
		{"below it", sheared, -15, 0.25, 0},
		{"below the last", sheared, -99, 0, 0},
		{"uniform at the top", uniform, 0, 0, -0.7},
		{"uniform far down", uniform, -500, 0, -0.7},
		{"law at the top", law, 0, 0, 1},
		{"law at the middle", law, -64, 0, math.Pow(2, -1.0/7)},
		{"law near the bottom", law, -127, 0, 0.5},
		{"law at the bottom", law, -128, 0, 0},
		{"law below it", law, -130, 0, 0},
	} {
		east, north := test.profile.At(test.z)
		if math.Abs(east-test.east) > 1e-12 || math.Abs(north-test.north) > 1e-12 {
			t.Errorf("%s: got %.6f east %.6f north, want %.6f %.6f", test.name, east, north, test.east, test.north)
		}
	}
	if n := testing.AllocsPerRun(100, func() { sheared.At(-6) }); n != 0 {
		t.Errorf("got %g allocations, want 0", n)
	}
}

func TestProfileFaults(t *testing.T) {
	for name, points := range map[string][]Current{
		"upside down": {{5, 1, 0}, {3, 1, 0}}, "twice": {{5, 1, 0}, {5, 1, 0}},
		"above the water": {{-1, 1, 0}}, "backwards": {{1, -1, 0}}, "no number": {{math.NaN(), 1, 0}},
	} {
		if _, err := NewProfile(points); err == nil {
			t.Errorf("%s: got no error", name)
		}
	}
}
