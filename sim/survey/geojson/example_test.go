package geojson_test

import (
	"fmt"
	"os"

	"dryline/sim/survey/geojson"
)

func ExampleWrite() {
	err := geojson.Write(os.Stdout, geojson.FeatureCollection{Features: []geojson.Feature{{
		Geometry:   geojson.Point{Lon: -1.4, Lat: 50.8},
		Properties: map[string]any{"contact": 7, "height_m": 1.2},
	}}})
	if err != nil {
		fmt.Println(err)
	}
	// Output:
	// {"type":"FeatureCollection","features":[
	// {"type":"Feature","geometry":{"type":"Point","coordinates":[-1.4,50.8]},"properties":{"contact":7,"height_m":1.2}}
	// ]}
}
