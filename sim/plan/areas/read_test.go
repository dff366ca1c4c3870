package areas_test

import (
	"strings"
	"testing"

	"dryline/sim/plan/areas"
)

// The example of RFC 7946, section 1.5: a point, a line and a polygon.
const rfc = `{"type": "FeatureCollection", "features": [
 {"type": "Feature", "geometry": {"type": "Point", "coordinates": [102.0, 0.5]}, "properties": {"prop0": "value0"}},
 {"type": "Feature", "geometry": {"type": "LineString", "coordinates": [[102.0, 0.0], [103.0, 1.0], [104.0, 0.0], [105.0, 1.0]]}, "properties": {"prop0": "value0", "prop1": 0.0}},
 {"type": "Feature", "geometry": {"type": "Polygon", "coordinates": [[[100.0, 0.0], [101.0, 0.0], [101.0, 1.0], [100.0, 1.0], [100.0, 0.0]]]}, "properties": {"prop0": "value0", "prop1": {"this": "that"}}}]}`

func TestRFCExamples(t *testing.T) {
	things, err := areas.Read([]byte(rfc))
	if err != nil || len(things) != 3 {
		t.Fatalf("%d things, %v", len(things), err)
	}
	if p := things[0].Points; len(p) != 1 || p[0] != (areas.Position{Lon: 102, Lat: 0.5}) {
		t.Errorf("points %v", p)
	}
	if l := things[1].Lines; len(l) != 1 || len(l[0]) != 4 {
		t.Errorf("lines %v", l)
	}
	if p := things[2].Polygons; len(p) != 1 || len(p[0].Outer) != 4 {
		t.Errorf("polygons %v", p)
	}
	// Section A.3 and A.6: a polygon with a hole, and two polygons of which one has one.
	things, err = areas.Read([]byte(`{"type": "MultiPolygon", "coordinates": [
	 [[[102.0, 2.0], [103.0, 2.0], [103.0, 3.0], [102.0, 3.0], [102.0, 2.0]]],
	 [[[100.0, 0.0], [101.0, 0.0], [101.0, 1.0], [100.0, 1.0], [100.0, 0.0]], [[100.2, 0.2], [100.2, 0.8], [100.8, 0.8], [100.8, 0.2], [100.2, 0.2]]]]}`))
	if err != nil || len(things) != 1 || len(things[0].Polygons) != 2 || len(things[0].Polygons[1].Holes) != 1 {
		t.Errorf("%v, %v", things, err)
	}
}

func TestFaults(t *testing.T) {
	for data, want := range map[string]string{
		`x`:                  "no GeoJSON",
		`{}`:                 `no "type"`,
		`{"type": "Circle"}`: "no geometry of RFC 7946",
		`{"type": "Polygon", "coordinates": [[[0, 0], [1, 1]]]}`:                                                    "3 or more",
		`{"type": "LineString", "coordinates": [[0, 0]]}`:                                                           "2 or more",
		`{"type": "Point", "coordinates": [500000, 5000000]}`:                                                       "longitude -180 to 180",
		`{"type": "Point", "coordinates": "here"}`:                                                                  "as RFC 7946 has them",
		`{"type": "FeatureCollection", "features": []}`:                                                             "holds no geometry",
		`{"type": "Feature", "properties": {"radius_m": -1}, "geometry": {"type": "Point", "coordinates": [0, 0]}}`: "radius_m",
	} {
		if _, err := areas.Read([]byte(data)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", data, err, want)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(rfc))
	f.Add([]byte(`{"type": "GeometryCollection", "geometries": [{"type": "MultiPoint", "coordinates": [[0, 0]]}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		things, err := areas.Read(data)
		if err == nil && len(things) == 0 {
			t.Error("nothing was read and nothing said")
		}
	})
}
