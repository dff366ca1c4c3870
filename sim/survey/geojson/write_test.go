package geojson_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"dryline/sim/survey/geojson"

	"pgregory.net/rapid"
)

func write(t testing.TB, fc geojson.FeatureCollection) string {
	t.Helper()
	var b bytes.Buffer
	if err := geojson.Write(&b, fc); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// coordinates returns what is written for one geometry.
func coordinates(t testing.TB, g geojson.Geometry) string {
	t.Helper()
	s := write(t, geojson.FeatureCollection{Features: []geojson.Feature{{Geometry: g}}})
	_, s, _ = strings.Cut(s, `"coordinates":`)
	s, _, _ = strings.Cut(s, "}")
	return s
}

// rfcExample is the FeatureCollection of RFC 7946 section 1.5.
const rfcExample = `{
	"type": "FeatureCollection",
	"features": [{
		"type": "Feature",
		"geometry": {"type": "Point", "coordinates": [102.0, 0.5]},
		"properties": {"prop0": "value0"}
	}, {
		"type": "Feature",
		"geometry": {
			"type": "LineString",
			"coordinates": [[102.0, 0.0], [103.0, 1.0], [104.0, 0.0], [105.0, 1.0]]
		},
		"properties": {"prop0": "value0", "prop1": 0.0}
	}, {
		"type": "Feature",
		"geometry": {
			"type": "Polygon",
			"coordinates": [[[100.0, 0.0], [101.0, 0.0], [101.0, 1.0], [100.0, 1.0], [100.0, 0.0]]]
		},
		"properties": {"prop0": "value0", "prop1": {"this": "that"}}
	}]
}`

func TestRFCExample(t *testing.T) {
	got := write(t, geojson.FeatureCollection{Features: []geojson.Feature{
		{
			Geometry:   geojson.Point{Lon: 102, Lat: 0.5},
			Properties: map[string]any{"prop0": "value0"},
		},
		{
			Geometry:   geojson.LineString{{102, 0}, {103, 1}, {104, 0}, {105, 1}},
			Properties: map[string]any{"prop0": "value0", "prop1": 0.0},
		},
		{
			Geometry:   geojson.Polygon{{{100, 0}, {101, 0}, {101, 1}, {100, 1}}},
			Properties: map[string]any{"prop0": "value0", "prop1": map[string]any{"this": "that"}},
		},
	}})
	var gotValue, wantValue any
	if err := json.Unmarshal([]byte(got), &gotValue); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal([]byte(rfcExample), &wantValue); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(gotValue, wantValue) {
		t.Errorf("got %s, want %s", got, rfcExample)
	}
}

// RFC 7946 section 3.1.6: rings are closed, outer ones anticlockwise and holes
// clockwise. The shape is that of appendix A.3, "with holes".
func TestRings(t *testing.T) {
	const want = "[[[100,0],[101,0],[101,1],[100,1],[100,0]]," +
		"[[100.8,0.8],[100.8,0.2],[100.2,0.2],[100.2,0.8],[100.8,0.8]]]"
	outer := []geojson.Position{{100, 0}, {101, 0}, {101, 1}, {100, 1}}
	outerBack := []geojson.Position{{100, 0}, {100, 1}, {101, 1}, {101, 0}}
	hole := []geojson.Position{{100.8, 0.8}, {100.8, 0.2}, {100.2, 0.2}, {100.2, 0.8}}
	holeBack := []geojson.Position{{100.8, 0.8}, {100.2, 0.8}, {100.2, 0.2}, {100.8, 0.2}}
	closed := func(ring []geojson.Position) []geojson.Position { return append(ring[:4:4], ring[0]) }
	for _, test := range []struct {
		name    string
		polygon geojson.Polygon
	}{
		{"as the RFC has it", geojson.Polygon{closed(outer), closed(hole)}},
		{"open", geojson.Polygon{outer, hole}},
		{"both reversed", geojson.Polygon{outerBack, holeBack}},
		{"closed and reversed", geojson.Polygon{closed(outerBack), closed(holeBack)}},
	} {
		before := fmt.Sprint(test.polygon)
		if got := coordinates(t, test.polygon); got != want {
			t.Errorf("%s: got %s, want %s", test.name, got, want)
		}
		if after := fmt.Sprint(test.polygon); after != before {
			t.Errorf("%s: the caller's rings changed to %s", test.name, after)
		}
	}
}

// Section 11.2 speaks of precision: 8 decimals are about a millimetre.
func TestRounding(t *testing.T) {
	for _, test := range []struct {
		name string
		p    geojson.Point
		want string
	}{
		{"longitude first (section 3.1.1)", geojson.Point{Lon: -1.4, Lat: 50.8}, "[-1.4,50.8]"},
		{"eight decimals", geojson.Point{Lon: -1.123456784999, Lat: 50.123456785001}, "[-1.12345678,50.12345679]"},
		{"no minus zero", geojson.Point{Lon: -1e-12, Lat: math.Copysign(0, -1)}, "[0,0]"},
		{"no exponent", geojson.Point{Lon: 1e-8, Lat: -2e-7}, "[0.00000001,-0.0000002]"},
		{"the corners of the world", geojson.Point{Lon: 180, Lat: -90}, "[180,-90]"},
	} {
		if got := coordinates(t, test.p); got != test.want {
			t.Errorf("%s: got %s, want %s", test.name, got, test.want)
		}
	}
}

func TestWriteRefuses(t *testing.T) {
	place := geojson.Point{}
	for _, test := range []struct {
		name string
		f    geojson.Feature
	}{
		{"longitude NaN", geojson.Feature{Geometry: geojson.Point{Lon: math.NaN()}}},
		{"longitude past 180", geojson.Feature{Geometry: geojson.Point{Lon: 180.1}}},
		{"grid metres for degrees (section 4)", geojson.Feature{Geometry: geojson.Point{Lon: 612750, Lat: 5628804}}},
		{"latitude past 90", geojson.Feature{Geometry: geojson.Point{Lat: -90.1}}},
		{"latitude infinite", geojson.Feature{Geometry: geojson.Point{Lat: math.Inf(1)}}},
		{"line of one position (section 3.1.4)", geojson.Feature{Geometry: geojson.LineString{{1, 2}}}},
		{"bad position in a line", geojson.Feature{Geometry: geojson.LineString{{1, 2}, {1, math.NaN()}}}},
		{"line over the antimeridian (section 3.1.9)", geojson.Feature{Geometry: geojson.LineString{{179, 2}, {-179, 2}}}},
		{"polygon without rings", geojson.Feature{Geometry: geojson.Polygon{}}},
		{"ring of two corners (section 3.1.6)", geojson.Feature{Geometry: geojson.Polygon{{{0, 0}, {1, 1}, {0, 0}}}}},
		{"empty ring", geojson.Feature{Geometry: geojson.Polygon{{}}}},
		{"ring without area", geojson.Feature{Geometry: geojson.Polygon{{{0.1, 0.1}, {0.2, 0.2}, {0.3, 0.3}}}}},
		{"ring that rounds to a point", geojson.Feature{Geometry: geojson.Polygon{{{0, 0}, {1e-10, 0}, {0, 1e-10}}}}},
		{"property JSON cannot hold", geojson.Feature{Geometry: place, Properties: map[string]any{"x": math.NaN()}}},
		{"foreign member with a meaning (section 7.1)", geojson.Feature{Geometry: place, Foreign: map[string]any{"geometry": 1}}},
		{"foreign crs (section 4)", geojson.Feature{Geometry: place, Foreign: map[string]any{"crs": "EPSG:32630"}}},
		{"foreign member JSON cannot hold", geojson.Feature{Geometry: place, Foreign: map[string]any{"x": func() {}}}},
	} {
		var b bytes.Buffer
		fc := geojson.FeatureCollection{Features: []geojson.Feature{{Geometry: place}, test.f}}
		err := geojson.Write(&b, fc)
		if err == nil || !strings.Contains(err.Error(), "feature 1") {
			t.Errorf("%s: got error %v, want one that names feature 1", test.name, err)
		}
		if b.Len() != 0 {
			t.Errorf("%s: got %q written, want nothing", test.name, b.String())
		}
	}
	if err := geojson.Write(new(bytes.Buffer), geojson.FeatureCollection{Foreign: map[string]any{"type": 1}}); err == nil {
		t.Error("collection with a foreign type: got no error")
	}
}

// The whole text: order of members and properties, null for what is not known
// (section 3.2), the extent as west, south, east, north (section 5), foreign
// members last (section 6.1).
func TestText(t *testing.T) {
	fc := geojson.FeatureCollection{
		BBox: true,
		Features: []geojson.Feature{
			{
				ID:         "C-1",
				Geometry:   geojson.Point{Lon: -1.4, Lat: 50.8},
				Properties: map[string]any{"note": "<2 m & bright", "height": 1.5, "class": "pipe"},
				Foreign:    map[string]any{"b": 2, "a": 1},
			},
			{Geometry: geojson.LineString{{-1.5, 50.9}, {-1.3, 50.7}}},
			{},
		},
		Foreign: map[string]any{"title": "line 101"},
	}
	const want = `{"type":"FeatureCollection","bbox":[-1.5,50.7,-1.3,50.9],"features":[
{"type":"Feature","id":"C-1","geometry":{"type":"Point","coordinates":[-1.4,50.8]},"properties":{"class":"pipe","height":1.5,"note":"<2 m & bright"},"a":1,"b":2},
{"type":"Feature","geometry":{"type":"LineString","coordinates":[[-1.5,50.9],[-1.3,50.7]]},"properties":null},
{"type":"Feature","geometry":null,"properties":null}
],"title":"line 101"}
`
	for range 20 { // map order changes from run to run
		if got := write(t, fc); got != want {
			t.Fatalf("got %s, want %s", got, want)
		}
	}
}

// Section 3.3: a collection without features is valid; it has no extent.
func TestEmpty(t *testing.T) {
	got := write(t, geojson.FeatureCollection{BBox: true})
	if want := "{\"type\":\"FeatureCollection\",\"features\":[\n]}\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errBroken }

var errBroken = errors.New("broken pipe")

func TestWritePassesErrors(t *testing.T) {
	if err := geojson.Write(broken{}, geojson.FeatureCollection{}); !errors.Is(err, errBroken) {
		t.Errorf("got %v, want %v", err, errBroken)
	}
}

// Any triangle comes out closed, anticlockwise and within half a unit of the
// last decimal of what went in.
func TestPolygonProperty(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var in [3]geojson.Position
		for i := range in {
			in[i].Lon = rapid.Float64Range(-80, 80).Draw(rt, "lon")
			in[i].Lat = rapid.Float64Range(-90, 90).Draw(rt, "lat")
		}
		cross := func(a, b, c geojson.Position) float64 {
			return (b.Lon-a.Lon)*(c.Lat-a.Lat) - (b.Lat-a.Lat)*(c.Lon-a.Lon)
		}
		if math.Abs(cross(in[0], in[1], in[2])) < 1e-5 {
			rt.Skip("thin triangle")
		}
		var rings [][][2]float64
		if err := json.Unmarshal([]byte(coordinates(t, geojson.Polygon{in[:]})), &rings); err != nil {
			rt.Fatal(err)
		}
		if len(rings) != 1 || len(rings[0]) != 4 || rings[0][0] != rings[0][3] {
			rt.Fatalf("got %v, want one closed ring of 4 positions", rings)
		}
		out := make([]geojson.Position, 3)
		for i := range out {
			out[i] = geojson.Position{Lon: rings[0][i][0], Lat: rings[0][i][1]}
			found := false
			for _, p := range in {
				const half = 0.5e-8 + 1e-13
				found = found || math.Abs(p.Lon-out[i].Lon) <= half && math.Abs(p.Lat-out[i].Lat) <= half
			}
			if !found {
				rt.Errorf("corner %v is none of %v", out[i], in)
			}
		}
		if cross(out[0], out[1], out[2]) <= 0 {
			rt.Errorf("ring %v is not anticlockwise", out)
		}
	})
}

func BenchmarkWrite(b *testing.B) {
	line := make(geojson.LineString, 10000)
	for i := range line {
		line[i] = geojson.Position{Lon: -1.4 + 1e-5*float64(i), Lat: 50.8 + 1e-6*float64(i)}
	}
	fc := geojson.FeatureCollection{BBox: true, Features: []geojson.Feature{{Geometry: line}}}
	var out bytes.Buffer
	for b.Loop() {
		out.Reset()
		if err := geojson.Write(&out, fc); err != nil {
			b.Fatal(err)
		}
	}
}
