package geojson

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
)

// Feature is a thing on the map and what is known of it (RFC 7946 section 3.2).
type Feature struct {
	ID         string         // left out if empty
	Geometry   Geometry       // nil for a thing without a place
	Properties map[string]any // values as [encoding/json] takes them; nil is written as null
	Foreign    map[string]any // members beyond the RFC (section 6.1), which readers may ignore
}

// FeatureCollection is a file of features (section 3.3).
type FeatureCollection struct {
	Features []Feature
	BBox     bool // write the extent of all features (section 5)
	Foreign  map[string]any
}

// reserved are the member names with a meaning of their own, which a foreign
// member must not take (section 7.1), and "crs", which the RFC removed from the
// format it came from (section 4).
var reserved = []string{
	"type", "features", "geometry", "properties", "id", "bbox",
	"coordinates", "geometries", "crs",
}

// Write writes the collection, a feature to a line. Members and properties come
// in a fixed order, so the same collection gives the same bytes. Nothing is
// written if any part of it is in error.
func Write(w io.Writer, fc FeatureCollection) error {
	var extent box
	features := []byte(`"features":[`)
	for i, f := range fc.Features {
		if i > 0 {
			features = append(features, ',')
		}
		features = append(features, '\n')
		var err error
		if features, err = f.append(features, &extent); err != nil {
			return fmt.Errorf("geojson: feature %d: %w", i, err)
		}
	}
	features = append(features, "\n]"...)

	out := []byte(`{"type":"FeatureCollection",`)
	if fc.BBox && extent.set {
		out = append(out, `"bbox":[`...)
		for i, units := range [...]int64{extent.west, extent.south, extent.east, extent.north} {
			if i > 0 {
				out = append(out, ',')
			}
			out = appendDegrees(out, units)
		}
		out = append(out, "],"...)
	}
	out = append(out, features...)
	out, err := appendForeign(out, fc.Foreign)
	if err != nil {
		return fmt.Errorf("geojson: %w", err)
	}
	if _, err := w.Write(append(out, "}\n"...)); err != nil {
		return fmt.Errorf("geojson: %w", err)
	}
	return nil
}

// append appends the feature and grows the extent by it.
func (f Feature) append(dst []byte, extent *box) ([]byte, error) {
	dst = append(dst, `{"type":"Feature",`...)
	var err error
	if f.ID != "" {
		dst = append(dst, `"id":`...)
		if dst, err = appendJSON(dst, f.ID); err != nil {
			return nil, err
		}
		dst = append(dst, ',')
	}
	dst = append(dst, `"geometry":`...)
	if f.Geometry == nil {
		dst = append(dst, "null"...)
	} else {
		dst = fmt.Appendf(dst, `{"type":%q,"coordinates":`, f.Geometry.kind())
		if dst, err = f.Geometry.appendCoordinates(dst, extent); err != nil {
			return nil, err
		}
		dst = append(dst, '}')
	}
	dst = append(dst, `,"properties":`...)
	if dst, err = appendJSON(dst, f.Properties); err != nil {
		return nil, fmt.Errorf("properties: %w", err)
	}
	if dst, err = appendForeign(dst, f.Foreign); err != nil {
		return nil, err
	}
	return append(dst, '}'), nil
}

// appendForeign appends the members in order of their names, each after a
// comma.
func appendForeign(dst []byte, members map[string]any) ([]byte, error) {
	for _, name := range slices.Sorted(maps.Keys(members)) {
		if slices.Contains(reserved, name) {
			return nil, fmt.Errorf("foreign member %q has a meaning in GeoJSON", name)
		}
		var err error
		if dst, err = appendJSON(append(dst, ','), name); err != nil {
			return nil, err
		}
		if dst, err = appendJSON(append(dst, ':'), members[name]); err != nil {
			return nil, fmt.Errorf("foreign member %q: %w", name, err)
		}
	}
	return dst, nil
}

// appendJSON appends v as encoding/json writes it, the keys of maps in order,
// without the escapes that only HTML needs.
func appendJSON(dst []byte, v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return append(dst, bytes.TrimSuffix(b.Bytes(), []byte("\n"))...), nil
}
