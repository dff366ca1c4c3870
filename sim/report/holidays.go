package report

import (
	"io"
	"strconv"

	"dryline/sim/survey/geojson"
)

// WriteHolidays writes the holidays of a report as RFC 7946, for any map program: a
// point in the middle of each, and the lines that would fill it. foreign are the members
// of the file beside its features.
func WriteHolidays(w io.Writer, in *Input, s *Survey, foreign map[string]any) error {
	fc := geojson.FeatureCollection{Foreign: foreign}
	grid := in.Brief.Place.Grid
	position := func(x, y float64) geojson.Position {
		lat, lon := grid.ToLatLon(x, y).Degrees()
		return geojson.Position{Lon: lon, Lat: lat}
	}
	for i := range s.Holidays {
		h := &s.Holidays[i]
		id := strconv.Itoa(i + 1)
		fc.Features = append(fc.Features, geojson.Feature{
			ID: id, Geometry: geojson.Point(position(h.X, h.Y)),
			Properties: map[string]any{
				"kind": "holiday", "square_metres": round(h.SquareMetres), "widest_square_m": round(h.Widest), "reason": h.Reason,
				"easting_m": round(h.Easting), "northing_m": round(h.Northing), "grid_epsg": grid.EPSG(), "synthetic_caution": in.Caution,
			},
		})
		for n, l := range h.Fill {
			fc.Features = append(fc.Features, geojson.Feature{
				ID: id + "-" + strconv.Itoa(n+1), Geometry: geojson.LineString{position(l.A.X, l.A.Y), position(l.B.X, l.B.Y)},
				Properties: map[string]any{"kind": "line that fills a holiday", "holiday": id, "length_m": round(l.Length()), "synthetic_caution": in.Caution},
			})
		}
	}
	return geojson.Write(w, fc)
}
