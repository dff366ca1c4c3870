package geodesy_test

import (
	"math"
	"testing"

	"dryline/vessel/nav/geodesy"

	"pgregory.net/rapid"
)

func TestGridBearingOf(t *testing.T) {
	for _, test := range []struct {
		name        string
		east, north float64
		degrees     float64
	}{
		{"north", 0, 1, 0},
		{"east", 1, 0, 90},
		{"south", 0, -1, 180},
		{"west", -1, 0, 270},
		{"north-west", -1, 1, 315},
		{"hair west of north", -1e-300, 1, 0},
		{"nowhere", 0, 0, 0},
	} {
		if got := geodesy.GridBearingOf(test.east, test.north).Degrees(); !near(got, test.degrees, 1e-12) {
			t.Errorf("%s: got %v, want %v", test.name, got, test.degrees)
		}
	}
}

// Grid north points east of true north where γ is positive, so a grid bearing
// reads less than the true one.
func TestConvergenceSign(t *testing.T) {
	const degree = math.Pi / 180
	for _, test := range []struct {
		name        string
		grid, gamma float64
		want        float64
	}{
		{"east of the central meridian", 90, 1.24, 91.24},
		{"west of the central meridian", 90, -1.24, 88.76},
		{"through north", 359.5, 1, 0.5},
		{"back through north", 0.5, -1, 359.5},
	} {
		got := geodesy.GridBearing(test.grid * degree).True(test.gamma * degree)
		if !near(got.Degrees(), test.want, 1e-9) {
			t.Errorf("%s: got %v, want %v", test.name, got.Degrees(), test.want)
		}
	}
}

func TestBearingRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grid := geodesy.GridBearing(rapid.Float64Range(-50, 50).Draw(t, "grid"))
		gamma := rapid.Float64Range(-0.2, 0.2).Draw(t, "gamma")
		bearing := grid.True(gamma)
		if bearing < 0 || bearing >= 2*math.Pi {
			t.Fatalf("true bearing %v is not in [0, 2π)", bearing)
		}
		back := bearing.Grid(gamma)
		if back < 0 || back >= 2*math.Pi {
			t.Fatalf("grid bearing %v is not in [0, 2π)", back)
		}
		if d := math.Remainder(float64(back-grid), 2*math.Pi); math.Abs(d) > 1e-13 {
			t.Errorf("got %v, want %v", back, grid)
		}
	})
}
