package sheet

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"

	"dryline/sim/plan"
	"dryline/sim/provenance"
	"dryline/sim/survey/geojson"
)

// WriteLines writes the lines as GeoJSON, in the order they are run.
func WriteLines(w io.Writer, in Input) error {
	c := geojson.FeatureCollection{BBox: true, Foreign: map[string]any{"dryline_engine": provenance.Engine, "license": provenance.Licence, "caution": Caution, "grid": in.Frame}}
	for i := range in.Plan.Lines {
		l := &in.Plan.Lines[i]
		bearing := math.Mod(math.Atan2(l.B.X-l.A.X, l.B.Y-l.A.Y)*180/math.Pi+360, 360)
		c.Features = append(c.Features, geojson.Feature{
			Geometry: geojson.LineString{in.position(l.A), in.position(l.B)},
			Properties: map[string]any{
				"name": l.Name, "kind": string(l.Kind), "run": i + 1, "length_m": round(l.Length(), 1), "grid_bearing_deg": round(bearing, 2),
				"range_m": in.Plan.Spec.Range, "caution": Caution,
			},
		})
	}
	return geojson.Write(w, c)
}

func (in *Input) position(p plan.Point) geojson.Position {
	lat, lon := in.Locate(p.X, p.Y)
	return geojson.Position{Lon: lon, Lat: lat}
}

type gpx struct {
	XMLName xml.Name `xml:"gpx"`
	NS      string   `xml:"xmlns,attr"`
	Version string   `xml:"version,attr"`
	Creator string   `xml:"creator,attr"`
	Meta    struct {
		Name string `xml:"name"`
		Desc string `xml:"desc"`
	} `xml:"metadata"`
	Routes []gpxRoute `xml:"rte"`
}

type gpxRoute struct {
	Name   string     `xml:"name"`
	Desc   string     `xml:"desc"`
	Number int        `xml:"number"`
	Points []gpxPoint `xml:"rtept"`
}

type gpxPoint struct {
	Lat  string `xml:"lat,attr"`
	Lon  string `xml:"lon,attr"`
	Name string `xml:"name"`
}

// WriteGPX writes each line as a route of GPX 1.1 (Topografix, 2004), in the order they are run.
func WriteGPX(w io.Writer, in Input) error {
	g := gpx{NS: "http://www.topografix.com/GPX/1/1", Version: "1.1", Creator: "dryline"}
	g.Meta.Name, g.Meta.Desc = in.Title, fmt.Sprintf("%s Dryline, engine %d. %s.", Caution, provenance.Engine, provenance.Licence)
	for i := range in.Plan.Lines {
		l := &in.Plan.Lines[i]
		r := gpxRoute{Name: l.Name, Desc: string(l.Kind), Number: i + 1}
		for _, end := range []struct {
			at   plan.Point
			name string
		}{{l.A, l.Name + " start"}, {l.B, l.Name + " end"}} {
			lat, lon := in.Locate(end.at.X, end.at.Y)
			r.Points = append(r.Points, gpxPoint{fmt.Sprintf("%.8f", lat), fmt.Sprintf("%.8f", lon), end.name})
		}
		g.Routes = append(g.Routes, r)
	}
	if _, err := io.WriteString(w, xml.Header); err != nil {
		return err
	}
	enc := xml.NewEncoder(w)
	enc.Indent("", "  ")
	if err := enc.Encode(g); err != nil {
		return err
	}
	_, err := io.WriteString(w, "\n")
	return err
}
