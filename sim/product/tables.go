package product

import (
	"encoding/csv"
	"io"
	"math"
	"slices"
	"strconv"
	"time"

	"dryline/seabed/units"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/survey"
	"dryline/sim/survey/geojson"
)

// track writes the watch log, a row a second: everything by the desk.
func (w *Writer) track(out io.Writer) error {
	ex := w.session.Exercise
	c := csv.NewWriter(out)
	c.Write([]string{
		"time_s", "utc", "vessel_easting_m", "vessel_northing_m", "fish_easting_m", "fish_northing_m",
		"fish_latitude_deg", "fish_longitude_deg", "heading_true_deg", "course_true_deg", "speed_kn",
		"cable_out_m", "layback_m", "fish_depth_m", "altitude_m", "line", "cross_track_m", "fault",
	})
	for _, p := range w.session.Desk.Track {
		f := p.Fix
		ve, vn := ex.Place.Grid.ToUTM(f.VesselX, f.VesselY)
		fe, fn := ex.Place.Grid.ToUTM(f.X, f.Y)
		lat, lon := ex.Place.Grid.ToLatLon(f.X, f.Y).Degrees()
		course := f.Course + ex.Place.Grid.ConvergenceAt(f.VesselX, f.VesselY)
		off := ""
		if p.Line != "" {
			off = number(p.Off, 2)
		}
		c.Write([]string{
			number(f.Time, 1), w.utc(f.Time), number(ve, 2), number(vn, 2), number(fe, 2), number(fn, 2),
			number(lat, 8), number(lon, 8), number(p.Heading.Degrees(), 1), number(bearing(course), 1),
			number(f.Speed/units.Knot, 2), number(f.CableOut, 1), number(f.Layback, 2),
			number(f.Depth, 2), number(f.Altitude, 2), p.Line, off, f.Fault,
		})
	}
	c.Flush()
	return c.Error()
}

func number(v float64, decimals int) string { return strconv.FormatFloat(v, 'f', decimals, 64) }

// bearing is an angle in degrees in 0..360.
func bearing(radians float64) float64 {
	d := math.Mod(radians*180/math.Pi, 360)
	if d < 0 {
		d += 360
	}
	return d
}

// utc is the time of day, to the tenth of a second.
func (w *Writer) utc(t float64) string { return utc(w.session, t) }

func utc(s *sim.Session, t float64) string {
	at := s.Exercise.Start.Add(time.Duration(math.Round(t*1000)) * time.Millisecond)
	return at.UTC().Format("2006-01-02T15:04:05.0Z")
}

// lines writes the planned lines and those added in the session, from their start to
// their end, and the area they are to cover.
func (w *Writer) lines(out io.Writer) error {
	ex := w.session.Exercise
	run := map[string]*survey.LineRecord{}
	for _, l := range w.session.Desk.Lines {
		run[l.Name] = l
	}
	c := geojson.FeatureCollection{Foreign: w.foreign()}
	for i, l := range ex.All() {
		kind := "planned line"
		if i < len(ex.Lines) && len(ex.Sailed()) < len(ex.All()) {
			kind = "line set aside"
		} else if i >= len(ex.Lines) && !slices.ContainsFunc(ex.Plan.Order, func(r exercise.Run) bool { return r.Line == i }) {
			kind = "added line"
		}
		properties := map[string]any{
			"name": l.Name, "kind": kind,
			"length_m":          round(math.Hypot(l.B.X-l.A.X, l.B.Y-l.A.Y), 2),
			"grid_bearing_deg":  round(bearing(l.Track(false).Bearing()), 2),
			"run":               run[l.Name] != nil,
			"range_scale_m":     ex.Sonar.RangeScale, // unless it was run with another
			"synthetic_caution": caution,
		}
		if r := run[l.Name]; r != nil {
			properties["range_scale_m"] = r.RangeScale
		}
		if r := run[l.Name]; r != nil && len(r.Pings) > 0 {
			properties["start_utc"], properties["end_utc"] = w.utc(r.Start), w.utc(r.End)
			properties["pings"] = len(r.Pings)
		}
		c.Features = append(c.Features, geojson.Feature{
			Geometry:   geojson.LineString{w.position(l.A.X, l.A.Y), w.position(l.B.X, l.B.Y)},
			Properties: properties,
		})
	}
	if area := ex.Score.Area; len(area) > 0 {
		var ring []geojson.Position
		for _, p := range area {
			ring = append(ring, w.position(p.X, p.Y))
		}
		c.Features = append(c.Features, geojson.Feature{
			Geometry:   geojson.Polygon{ring},
			Properties: map[string]any{"kind": "area to be covered", "synthetic_caution": caution},
		})
	}
	return geojson.Write(out, c)
}

// contacts writes what the desk marked.
func (w *Writer) contacts(out io.Writer) error { return WriteContacts(out, w.session, w.foreign()) }

// WriteContacts writes what the desk of a session marked, with further members that say where it
// comes from.
func WriteContacts(out io.Writer, s *sim.Session, foreign map[string]any) error {
	c := geojson.FeatureCollection{Foreign: foreign}
	grid := s.Exercise.Place.Grid
	for _, k := range s.Desk.Contacts {
		e, n := grid.ToUTM(k.X, k.Y)
		feature := geojson.Feature{
			ID:       strconv.Itoa(k.Number),
			Geometry: geojson.Point(position(s, k.X, k.Y)),
			Properties: map[string]any{
				"number": k.Number, "name": k.Name, "class": k.Class, "by_hand": k.ByHand, "lines": k.Lines, "side": k.Side, "utc": utc(s, k.Time), "ping": k.Ping,
				"easting_m": round(e, 2), "northing_m": round(n, 2), "grid_epsg": grid.EPSG(),
				"ground_range_m": round(k.Range, 2), "fish_altitude_m": round(k.Altitude, 2),
				"length_m": round(k.Length, 2), "width_m": round(k.Width, 2),
				"shadow_m": round(k.Shadow, 2), "height_m": round(k.Height, 2),
				"contrast": round(k.Contrast, 2), "synthetic_caution": caution,
			},
		}
		for name, value := range judgement(&k) {
			feature.Properties[name] = value
		}
		c.Features = append(c.Features, feature)
	}
	return geojson.Write(out, c)
}

// judgement gives a person's opinion of a contact, as far as anybody gave one.
func judgement(k *survey.Contact) map[string]any {
	said := map[string]any{}
	for name, text := range map[string]string{
		"description": k.Description, "action": string(k.Action), "reason": k.Reason, "remarks": k.Remarks,
	} {
		if text != "" {
			said[name] = text
		}
	}
	if k.Confidence != nil {
		said["confidence"] = *k.Confidence
	}
	return said
}

func (w *Writer) position(x, y float64) geojson.Position { return position(w.session, x, y) }

func position(s *sim.Session, x, y float64) geojson.Position {
	lat, lon := s.Exercise.Place.Grid.ToLatLon(x, y).Degrees()
	return geojson.Position{Lon: lon, Lat: lat}
}

func round(v float64, decimals int) float64 {
	s := math.Pow10(decimals)
	return math.Round(v*s) / s
}
