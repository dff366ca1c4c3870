package geodesy_test

import (
	"fmt"
	"math"
	"testing"

	"dryline/vessel/nav/geodesy"

	"pgregory.net/rapid"
)

func channelGrid(t testing.TB) geodesy.LocalGrid {
	t.Helper()
	g, err := geodesy.NewLocalGrid(geodesy.Degrees(50.80, -1.40))
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func TestLocalGridOrigin(t *testing.T) {
	g := channelGrid(t)
	// PROJ 9.1.1, testdata/geodesy/utm_reference.csv.
	if !near(g.OriginEasting, 612750.4026, 1e-3) || !near(g.OriginNorthing, 5628804.6483, 1e-3) {
		t.Errorf("got origin %.4f, %.4f, want 612750.4026, 5628804.6483", g.OriginEasting, g.OriginNorthing)
	}
	if g.EPSG() != 32630 {
		t.Errorf("got EPSG %d, want 32630", g.EPSG())
	}
	// The second row of the table, 0.01° north of the first, in local metres.
	x, y := g.FromLatLon(geodesy.Degrees(50.81, -1.40))
	if !near(x, -24.0704, 1e-3) || !near(y, 1111.9136, 1e-3) {
		t.Errorf("got local %.4f, %.4f, want -24.0704, 1111.9136", x, y)
	}
	if got := g.ConvergenceAt(0, 0) * 180 / math.Pi; !near(got, 1.24004097, 1e-6) {
		t.Errorf("got convergence %.8f degrees, want 1.24004097", got)
	}
	if got := g.ScaleFactorAt(0, 0); !near(got, 0.99975611, 1e-7) {
		t.Errorf("got scale %.8f, want 0.99975611", got)
	}
}

// The ground and the grid tell one story: a geodesic's true azimuth less the
// convergence is the grid bearing of its end points, and its length times the
// scale factor is the grid length. Geodesics by PROJ 9.1.1 (geod).
func TestGridAgreesWithGeodesic(t *testing.T) {
	g := channelGrid(t)
	for _, test := range []struct {
		name     string
		to       geodesy.LatLon
		azimuth  float64 // degrees
		geodesic float64 // metres
	}{
		{"north along the meridian", geodesy.Degrees(50.81, -1.40), 0, 1112.4454},
		{"east", geodesy.Degrees(50.80, -1.39), 89.996125, 704.9903},
	} {
		x, y := g.FromLatLon(test.to)
		trueWant := geodesy.TrueBearing(test.azimuth * math.Pi / 180)
		got := geodesy.GridBearingOf(x, y).True(g.ConvergenceAt(0, 0))
		// The chord on the grid leaves the projected geodesic by the arc-to-chord
		// correction, 9e-5° on the longer line.
		const degrees = 1e-4
		if d := math.Remainder(got.Degrees()-trueWant.Degrees(), 360); math.Abs(d) > degrees {
			t.Errorf("%s: got true bearing %.6f, want %.6f", test.name, got.Degrees(), trueWant.Degrees())
		}
		// Half way the scale is that of the line to second order.
		k := g.ScaleFactorAt(x/2, y/2)
		const metres = 2e-4 // the table is rounded to 1e-4
		if length := math.Hypot(x, y); !near(length, test.geodesic*k, metres) {
			t.Errorf("%s: got grid length %.4f, want %.4f", test.name, length, test.geodesic*k)
		}
	}
}

func TestNewLocalGridRefuses(t *testing.T) {
	for _, ll := range []geodesy.LatLon{
		geodesy.Degrees(85, 0),
		geodesy.Degrees(-90, 0),
		{Lat: 50.8, Lon: -1.4}, // degrees given as radians
		{Lat: math.NaN()},
		{Lon: math.Inf(-1)},
	} {
		if g, err := geodesy.NewLocalGrid(ll); err == nil {
			t.Errorf("%v: got grid %v, want an error", ll, g)
		}
	}
}

func TestLocalGridRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.Float64Range(-80, 83).Draw(t, "lat")
		lon := rapid.Float64Range(-180, 180).Draw(t, "lon")
		g, err := geodesy.NewLocalGrid(geodesy.Degrees(lat, lon))
		if err != nil {
			t.Fatal(err)
		}
		x := rapid.Float64Range(-50e3, 50e3).Draw(t, "x")
		y := rapid.Float64Range(-50e3, 50e3).Draw(t, "y")
		x2, y2 := g.FromLatLon(g.ToLatLon(x, y))
		const metres = 1e-6
		if !near(x2, x, metres) || !near(y2, y, metres) {
			t.Errorf("got %.9f, %.9f, want %.9f, %.9f", x2, y2, x, y)
		}
	})
}

// A line steered by gyro along a grid line must carry the convergence: here
// 1.24°, which over 5 km is 108 m across the track.
func ExampleLocalGrid() {
	grid, err := geodesy.NewLocalGrid(geodesy.Degrees(50.80, -1.40))
	if err != nil {
		panic(err)
	}
	line := geodesy.GridBearingOf(0, 5000) // local metres: due grid north
	steer := line.True(grid.ConvergenceAt(0, 0))
	fmt.Printf("UTM %v, EPSG %d\n", grid, grid.EPSG())
	fmt.Printf("grid %.2f is true %.2f\n", line.Degrees(), steer.Degrees())
	// Output:
	// UTM 30N, EPSG 32630
	// grid 0.00 is true 1.24
}

// Whole steps of the grid: the corner is where easting and northing divide by the
// step, less than a step from the origin.
func TestWhole(t *testing.T) {
	g := channelGrid(t)
	for _, step := range []float64{0.02, 0.1, 0.25, 0.3, 1, 7} {
		x, y := g.Whole(step)
		e, n := g.ToUTM(x, y)
		for _, v := range []float64{e, n} {
			if off := math.Abs(math.Remainder(v, step)); off > 1e-6 {
				t.Errorf("step %g: %.9f is %g off a whole number of steps", step, v, off)
			}
		}
		if x < 0 || x > step || y < 0 || y > step {
			t.Errorf("step %g: the corner is at %g, %g", step, x, y)
		}
	}
}
