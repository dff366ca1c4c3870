package geodesy_test

import (
	"math"
	"testing"

	"dryline/vessel/nav/geodesy"
)

// The regular zones follow from the reference table in testdata/geodesy and
// the 6° rule of the UTM definition. The widened zones are from memory of the
// same definition (NGA.SIG.0012, universal grids); no copy was at hand.
func TestZoneFor(t *testing.T) {
	for _, test := range []struct {
		name     string
		lat, lon float64
		zone     int
		south    bool
	}{
		{"Channel", 50.80, -1.40, 30, false},
		{"east coast of North America", 40.75, -73.985, 18, false},
		{"west coast of North America", 37.8, -122.5, 10, false},
		{"equator is northern", 0, 3, 31, false},
		{"edge belongs to the east", 0, 0, 31, false},
		{"just west of an edge", 0, -1e-6, 30, false},
		{"first zone", 10, -179.5, 1, false},
		{"antimeridian", 10, 180, 1, false},
		{"antimeridian from the west", 10, -180, 1, false},
		{"a turn too many", 50.80, 358.60, 30, false},
		{"last zone", -45, 179.9, 60, true},
		{"south-west Norway", 60, 5, 32, false},
		{"west of Norway", 60, 2.9, 31, false},
		{"south of the widening", 55.9, 5, 31, false},
		{"at its southern edge", 56, 5, 32, false},
		{"Svalbard", 78.22, 15, 33, false},
		{"Svalbard west", 78, 8.9, 31, false},
		{"Svalbard 33", 78, 9, 33, false},
		{"Svalbard 35", 78, 21, 35, false},
		{"Svalbard 37", 78, 33, 37, false},
		{"east of Svalbard", 78, 42, 38, false},
		{"nowhere", math.NaN(), 0, 0, false},
		{"far nowhere", 0, math.Inf(1), 0, false},
	} {
		zone, south := geodesy.ZoneFor(geodesy.Degrees(test.lat, test.lon))
		if zone != test.zone || south != test.south {
			t.Errorf("%s: got zone %d south %t, want %d %t", test.name, zone, south, test.zone, test.south)
		}
	}
}

// Every whole-degree zone edge belongs to the zone on its east, whatever the
// radians round to.
func TestZoneEdges(t *testing.T) {
	for z := 1; z <= 60; z++ {
		if got, _ := geodesy.ZoneFor(geodesy.Degrees(10, float64(6*z-186))); got != z {
			t.Errorf("western edge of zone %d: got %d", z, got)
		}
	}
}
