package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryline/sim/survey"
	"dryline/sim/survey/geojson"
)

// Contact is a contact as it is reported.
type Contact struct {
	survey.Contact
	place
	survey.Dimensions
	UTC      string
	Run      int     // of its first pass, 0 if it was seen on no record
	Slant    float64 // of its first pass, metres
	Layback  float64 // of the fish then, metres
	Depth    survey.Depth
	Radius   float64 // its position holds within, at 95 %, metres; 0 if that is not known
	Budget   survey.Budget
	Chip     *Chip
	Measured string // the ends of its measures, in words
	PassList string
}

// contacts are those of the desk, in order.
func (in *Input) contacts() []Contact {
	d := in.Desk
	var out []Contact
	for i := range d.Contacts {
		k := &d.Contacts[i]
		c := Contact{Contact: *k, place: in.place(k.X, k.Y), Dimensions: d.Dimensions(k), UTC: in.utc(k.Time).Format(stamp), Depth: d.DepthOver(k)}
		if b, ok := d.BudgetOf(k); ok {
			c.Budget, c.Radius = b, b.Radius()
		}
		if p := d.FirstPing(k); p != nil && len(k.Passes) > 0 {
			c.Run, c.Slant, c.Layback = k.Passes[0].Run, k.Passes[0].Slant, p.Fix.Layback
		}
		var passes, ends []string
		for _, p := range k.Passes {
			by := "desk"
			if p.ByHand {
				by = "hand"
			}
			passes = append(passes, fmt.Sprintf("run %d line %s %s (%s)", p.Run, p.Line, side(p.Starboard), by))
		}
		for _, m := range k.Measures {
			a, b := in.place(m.X, m.Y), in.place(m.X2, m.Y2)
			ends = append(ends, fmt.Sprintf("%s %.2f m from E %.2f N %.2f to E %.2f N %.2f", m.What, m.Metres, a.Easting, a.Northing, b.Easting, b.Northing))
		}
		c.PassList, c.Measured = strings.Join(passes, "; "), strings.Join(ends, "; ")
		if n := slices.IndexFunc(in.Chips, func(chip Chip) bool { return chip.Contact == k.Number }); n >= 0 {
			c.Chip = &in.Chips[n]
		}
		out = append(out, c)
	}
	return out
}

func side(starboard bool) string {
	if starboard {
		return "starboard"
	}
	return "port"
}

// action says in words what comes of a contact.
func action(a survey.Action) string {
	if a == "" {
		return "undecided"
	}
	return string(a)
}

// confidence is how sure the surveyor is, or nothing.
func confidence(c *float64) string {
	if c == nil {
		return ""
	}
	return number(*c, 2)
}

func known(v float64, is bool, decimals int) string {
	if !is {
		return ""
	}
	return number(v, decimals)
}

// WriteContactsCSV writes the contact report as CSV, with the fields of the contact log
// of IHO C-13, chapter 4, 2.4.1.3: record, time, number, position, side, slant range,
// layback, height of the fish, assessment, action and class.
func WriteContactsCSV(w io.Writer, in *Input) error {
	c := csv.NewWriter(w)
	c.Write([]string{"record_run", "record_ping", "utc", "number", "name", "easting_m", "northing_m", "grid_epsg", "latitude_deg", "longitude_deg", "position_95_percent_m",
		"side", "slant_range_m", "ground_range_m", "layback_m", "fish_height_m", "class", "confidence", "description", "strength",
		"length_m", "length_sigma_m", "width_m", "width_sigma_m", "shadow_m", "height_m", "height_sigma_m",
		"depth_estimate_m", "depth_estimate_sigma_m", "depth_reduced_to_datum", "passes", "measures", "action", "reason", "remarks", "by_hand"})
	for _, k := range in.contacts() {
		depth := ""
		if k.Depth.Known {
			depth = strconv.FormatBool(k.Depth.Reduced)
		}
		run := ""
		if k.Run > 0 {
			run = strconv.Itoa(k.Run)
		}
		seen := k.Run > 0
		c.Write([]string{run, strconv.FormatUint(k.Ping, 10), k.UTC, strconv.Itoa(k.Number), k.Name,
			number(k.Easting, 2), number(k.Northing, 2), strconv.Itoa(in.Brief.Place.Grid.EPSG()), number(k.Latitude, 8), number(k.Longitude, 8), known(k.Radius, k.Radius > 0, 1),
			k.Side, known(k.Slant, seen, 2), known(k.Range, k.Side != "", 2), known(k.Layback, seen, 1), known(k.Altitude, k.Side != "", 2),
			string(k.Class), confidence(k.Confidence), k.Description, known(k.Contrast, k.Contrast > 0, 2),
			known(k.Dimensions.Length.Metres, k.Dimensions.Length.Known, 2), known(k.Dimensions.Length.Sigma, k.Dimensions.Length.Known, 2),
			known(k.Dimensions.Width.Metres, k.Dimensions.Width.Known, 2), known(k.Dimensions.Width.Sigma, k.Dimensions.Width.Known, 2),
			known(k.Dimensions.Shadow.Metres, k.Dimensions.Shadow.Known, 2),
			known(k.Dimensions.Height.Metres, k.Dimensions.Height.Known, 2), known(k.Dimensions.Height.Sigma, k.Dimensions.Height.Known, 2),
			known(k.Depth.Metres, k.Depth.Known, 2), known(k.Depth.Sigma, k.Depth.Known, 2), depth,
			k.PassList, k.Measured, action(k.Action), k.Reason, k.Remarks, strconv.FormatBool(k.ByHand)})
	}
	c.Flush()
	return c.Error()
}

// WriteContactsGeoJSON writes the contact report as RFC 7946; foreign are the members of
// the file beside its features.
func WriteContactsGeoJSON(w io.Writer, in *Input, foreign map[string]any) error {
	fc := geojson.FeatureCollection{Foreign: foreign}
	for _, k := range in.contacts() {
		p := map[string]any{
			"number": k.Number, "name": k.Name, "class": k.Class, "action": action(k.Action), "by_hand": k.ByHand, "utc": k.UTC,
			"easting_m": round(k.Easting), "northing_m": round(k.Northing), "grid_epsg": in.Brief.Place.Grid.EPSG(),
			"depth_is": "an estimate, never a least depth", "synthetic_caution": in.Caution,
		}
		for name, text := range map[string]string{"description": k.Description, "reason": k.Reason, "remarks": k.Remarks} {
			if text != "" {
				p[name] = text
			}
		}
		if k.Confidence != nil {
			p["confidence"] = *k.Confidence
		}
		for name, s := range map[string]survey.Sized{"length": k.Dimensions.Length, "width": k.Dimensions.Width, "shadow": k.Dimensions.Shadow, "height": k.Dimensions.Height, "depth_estimate": k.Depth.Sized} {
			if s.Known {
				p[name+"_m"], p[name+"_sigma_m"] = round(s.Metres), round(s.Sigma)
			}
		}
		if k.Depth.Known {
			p["depth_reduced_to_datum"] = k.Depth.Reduced
		}
		if k.Radius > 0 {
			p["position_95_percent_m"] = round(k.Radius)
		}
		passes := []map[string]any{}
		for _, q := range k.Passes {
			passes = append(passes, map[string]any{"run": q.Run, "line": q.Line, "ping": q.Ping, "side": side(q.Starboard), "slant_range_m": round(q.Slant), "by_hand": q.ByHand})
		}
		p["passes"] = passes
		measures := []map[string]any{}
		for _, m := range k.Measures {
			a, b := in.place(m.X, m.Y), in.place(m.X2, m.Y2)
			measures = append(measures, map[string]any{
				"what": m.What, "metres": round(m.Metres), "from_easting_m": round(a.Easting), "from_northing_m": round(a.Northing),
				"to_easting_m": round(b.Easting), "to_northing_m": round(b.Northing), "run": m.Run, "ping": m.Ping,
			})
		}
		p["measures"] = measures
		fc.Features = append(fc.Features, geojson.Feature{
			ID: strconv.Itoa(k.Number), Geometry: geojson.Point{Lon: k.Longitude, Lat: k.Latitude}, Properties: p,
		})
	}
	return geojson.Write(w, fc)
}

func round(v float64) float64 { return math.Round(v*100) / 100 }
