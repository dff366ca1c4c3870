package debrief

import (
	"io"
	"math"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/survey/geojson"
)

// WriteTruth writes what truly lies there as GeoJSON, see [Truth]. foreign are the
// members of the file beside its features.
func WriteTruth(w io.Writer, s *sim.Session, foreign map[string]any) error {
	return geojson.Write(w, geojson.FeatureCollection{Features: Truth(s), Foreign: foreign})
}

// Truth returns what truly lies there: objects as points at their middle, then pipelines as
// lines, in the order of their numbers. It is for after the session.
func Truth(s *sim.Session) []geojson.Feature {
	grid := s.Exercise.Place.Grid
	position := func(p seabed.Point) geojson.Position {
		lat, lon := grid.ToLatLon(p.X, p.Y).Degrees()
		return geojson.Position{Lon: lon, Lat: lat}
	}
	spec := &s.Exercise.Seabed
	var all []geojson.Feature
	for i := range spec.Objects {
		o := spec.Objects[i].Whole()
		e, n := grid.ToUTM(o.At.X, o.At.Y)
		all = append(all, geojson.Feature{
			Geometry: geojson.Point(position(o.At)),
			Properties: map[string]any{
				"name": o.Name, "kind": o.Kind, "charted": o.Charted,
				"easting_m": hundredths(e), "northing_m": hundredths(n), "grid_epsg": grid.EPSG(),
				"heading_grid_deg": hundredths(math.Mod(o.Heading*180/math.Pi+360, 360)),
				"length_m":         hundredths(o.Length), "width_m": hundredths(o.Width), "height_m": hundredths(o.Height),
				"burial_m": hundredths(o.Burial), "made_of": o.Class.String(),
			},
		})
	}
	for i := range spec.Pipelines {
		p := &spec.Pipelines[i]
		var path geojson.LineString
		for _, q := range p.Path {
			path = append(path, position(q))
		}
		all = append(all, geojson.Feature{
			Geometry: path,
			Properties: map[string]any{
				"name": p.Name, "kind": "pipeline", "charted": p.Charted, "grid_epsg": grid.EPSG(),
				"length_m": hundredths(p.Length()), "diameter_m": hundredths(p.Diameter), "burial_m": hundredths(p.Burial), "spans": len(p.Spans),
			},
		})
	}
	return all
}

func hundredths(v float64) float64 { return math.Round(v*100) / 100 }
