package areas

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
)

// Position is a place, degrees, east and north positive.
type Position struct{ Lon, Lat float64 }

// Polygon is an outer ring and its holes; the first corner is not repeated.
type Polygon struct {
	Outer []Position
	Holes [][]Position
}

// Thing is one feature: polygons, lines and points, with what is said of it.
type Thing struct {
	Name     string
	Radius   float64 // metres to keep clear beside it, "radius_m"; 0 if nothing is said
	Polygons []Polygon
	Lines    [][]Position
	Points   []Position
}

// mostPositions bounds what a file may hold: geometry is walked by every line.
const mostPositions = 100_000

type object struct {
	Type        string                     `json:"type"`
	Features    []object                   `json:"features"`
	Geometry    *object                    `json:"geometry"`
	Geometries  []object                   `json:"geometries"`
	Coordinates json.RawMessage            `json:"coordinates"`
	Properties  map[string]json.RawMessage `json:"properties"`
}

// inWords says what is wrong with a text of JSON without Go and its types.
func inWords(err error) string {
	if e, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		where := e.Field
		if where == "" {
			where = "the file"
		}
		return fmt.Sprintf("%s holds a JSON %s, which cannot stand there", where, e.Value)
	}
	if e, ok := errors.AsType[*json.SyntaxError](err); ok {
		return fmt.Sprintf("no JSON from its character %d on", max(e.Offset, 1))
	}
	return err.Error()
}

// Read reads the features of a file.
func Read(data []byte) ([]Thing, error) {
	var top object
	if err := json.Unmarshal(data, &top); err != nil {
		return nil, fmt.Errorf("it is no GeoJSON: %s", inWords(err))
	}
	var out []Thing
	n := 0
	take := func(f object, g *object) error {
		var t Thing
		_ = json.Unmarshal(f.Properties["name"], &t.Name)
		if raw, ok := f.Properties["radius_m"]; ok {
			if err := json.Unmarshal(raw, &t.Radius); err != nil || !(t.Radius >= 0) || t.Radius > 1e5 {
				return fmt.Errorf("radius_m of %q is %.20s, want metres from 0", t.Name, raw)
			}
		}
		if g == nil {
			return nil // a feature without a place
		}
		if err := t.add(g, &n, 0); err != nil {
			return err
		}
		out = append(out, t)
		return nil
	}
	var err error
	switch top.Type {
	case "FeatureCollection":
		for i, f := range top.Features {
			if err = take(f, f.Geometry); err != nil {
				return nil, fmt.Errorf("feature %d: %w", i+1, err)
			}
		}
	case "Feature":
		err = take(top, top.Geometry)
	case "":
		return nil, errors.New(`it has no "type": want a GeoJSON FeatureCollection, Feature or geometry`)
	default:
		err = take(object{}, &top)
	}
	if err != nil {
		return nil, err
	}
	if len(out) == 0 {
		return nil, errors.New("it holds no geometry")
	}
	return out, nil
}

// add adds a geometry to a thing.
func (t *Thing) add(g *object, n *int, deep int) error {
	into := func(v any) error {
		if err := json.Unmarshal(g.Coordinates, v); err != nil {
			return fmt.Errorf("the coordinates of a %s are not as RFC 7946 has them", g.Type)
		}
		return nil
	}
	var (
		one  []float64
		list [][]float64
		ring [][][]float64
		many [][][][]float64
	)
	switch g.Type {
	case "Point":
		if err := into(&one); err != nil {
			return err
		}
		p, err := positions([][]float64{one}, n)
		t.Points = append(t.Points, p...)
		return err
	case "MultiPoint":
		if err := into(&list); err != nil {
			return err
		}
		p, err := positions(list, n)
		t.Points = append(t.Points, p...)
		return err
	case "LineString":
		if err := into(&list); err != nil {
			return err
		}
		return t.addLine(list, n)
	case "MultiLineString":
		if err := into(&ring); err != nil {
			return err
		}
		for _, l := range ring {
			if err := t.addLine(l, n); err != nil {
				return err
			}
		}
	case "Polygon":
		if err := into(&ring); err != nil {
			return err
		}
		return t.addPolygon(ring, n)
	case "MultiPolygon":
		if err := into(&many); err != nil {
			return err
		}
		for _, p := range many {
			if err := t.addPolygon(p, n); err != nil {
				return err
			}
		}
	case "GeometryCollection":
		if deep > 8 {
			return errors.New("geometry collections lie within each other too deep")
		}
		for i := range g.Geometries {
			if err := t.add(&g.Geometries[i], n, deep+1); err != nil {
				return err
			}
		}
	default:
		return fmt.Errorf("%.20q is no geometry of RFC 7946", g.Type)
	}
	return nil
}

func (t *Thing) addLine(list [][]float64, n *int) error {
	p, err := positions(list, n)
	if err == nil && len(p) < 2 {
		err = fmt.Errorf("a line of %d positions, want 2 or more", len(p))
	}
	t.Lines = append(t.Lines, p)
	return err
}

func (t *Thing) addPolygon(rings [][][]float64, n *int) error {
	if len(rings) == 0 {
		return errors.New("a polygon without a ring")
	}
	var poly Polygon
	for k, r := range rings {
		p, err := positions(r, n)
		if err != nil {
			return err
		}
		if len(p) > 1 && p[0] == p[len(p)-1] {
			p = p[:len(p)-1]
		}
		if len(p) < 3 {
			return fmt.Errorf("a ring of %d corners, want 3 or more", len(p))
		}
		if k == 0 {
			poly.Outer = p
		} else {
			poly.Holes = append(poly.Holes, p)
		}
	}
	t.Polygons = append(t.Polygons, poly)
	return nil
}

func positions(list [][]float64, n *int) ([]Position, error) {
	if *n += len(list); *n > mostPositions {
		return nil, fmt.Errorf("it holds more than %d positions", mostPositions)
	}
	out := make([]Position, len(list))
	for i, c := range list {
		if len(c) < 2 || math.Abs(c[0]) > 180 || math.Abs(c[1]) > 90 {
			return nil, fmt.Errorf("a position is %v, want longitude -180 to 180 and latitude -90 to 90 in degrees", c)
		}
		out[i] = Position{c[0], c[1]}
	}
	return out, nil
}
