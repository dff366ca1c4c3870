package scenarios

import (
	"fmt"

	"dryline/sim/exercise"

	"go.yaml.in/yaml/v3"
)

// Draft holds what a planner's exercise has of its own; vessel, tow, sonar, instruments and desk
// are those of the exercise it is made after.
type Draft struct {
	Title, Briefing     string
	Place               string
	Latitude, Longitude float64 // of the south-west corner, degrees
	East, North, Depth  float64 // metres
	Depths              DraftDepths
	Current, CurrentSet float64 // kn, deg
	Tide                float64 // amplitude, metres
	RangeScale          float64
	MosaicCell          float64
	Lines               []exercise.Line
	Order               []exercise.Run
	Speed               float64 // kn
	CableOut            float64
	RunIn, RunOut       float64
	Turn                string
	TurnRadius          float64
	TurnHaul            float64 // %
	Altitude, Band      float64
	TimeLimit           float64      // minutes
	Area                [][2]float64 // corners; empty for the lines' own strip
	OffLine             float64
	HeightLow           float64 // percent
	HeightHigh          float64
}

// DraftDepths names a file of depths; see the keys of seabed.depths.
type DraftDepths struct {
	File, Hash, Values  string
	EPSG                int
	Cell, Within, Water float64
}

// Text writes the exercise after another one, as a file that [Parse] reads. The error is [Faults].
func (d *Draft) Text(name string, after []byte) ([]byte, error) {
	doc, err := parseDocument(after)
	if err != nil {
		return nil, fmt.Errorf("the exercise to make it after: %w", err)
	}
	top := doc.Content[0]
	for _, key := range []string{"goals", "trains", "effects", "events", "snags", "traffic", "score"} {
		strike(top, key)
	}
	put(top, "title", d.Title)
	put(top, "briefing", d.Briefing)
	put(top, "place", &yaml.Node{Kind: yaml.MappingNode, Content: pairs(
		"name", d.Place, "latitude_deg", d.Latitude, "longitude_deg", d.Longitude)})
	sea := section(top, "sea")
	for _, key := range []string{"currents", "current_fades"} {
		strike(sea, key)
	}
	put(sea, "current_kn", d.Current)
	put(sea, "current_set_deg", d.CurrentSet)
	put(sea, "tide", &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle, Content: pairs("amplitude_m", d.Tide)})
	depths := &yaml.Node{Kind: yaml.MappingNode, Content: pairs(
		"file", d.Depths.File, "sha256", d.Depths.Hash, "values", d.Depths.Values, "epsg", d.Depths.EPSG,
		"cell_m", d.Depths.Cell, "fill_holes_m", d.Depths.Within, "water_above_zero_m", d.Depths.Water)}
	put(top, "seabed", &yaml.Node{Kind: yaml.MappingNode, Content: pairs(
		"east_m", d.East, "north_m", d.North, "depth_m", d.Depth, "depths", depths)})
	put(section(top, "sonar"), "range_scale_m", d.RangeScale)
	put(section(top, "desk"), "mosaic_cell_m", d.MosaicCell)
	var lines yaml.Node
	lines.Kind = yaml.SequenceNode
	for _, l := range d.Lines {
		lines.Content = append(lines.Content, &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle, Content: pairs(
			"name", l.Name, "from", at(l.A.X, l.A.Y), "to", at(l.B.X, l.B.Y))})
	}
	put(top, "lines", &lines)
	order := &yaml.Node{Kind: yaml.SequenceNode, Style: yaml.FlowStyle}
	for _, r := range d.Order {
		name := d.Lines[r.Line].Name
		if r.Reversed {
			name = "-" + name
		}
		order.Content = append(order.Content, value(name))
	}
	put(top, "plan", &yaml.Node{Kind: yaml.MappingNode, Content: pairs(
		"order", order, "speed_kn", d.Speed, "cable_out_m", d.CableOut, "run_in_m", d.RunIn, "run_out_m", d.RunOut,
		"turn", d.Turn, "turn_radius_m", d.TurnRadius, "turn_haul_percent", d.TurnHaul, "altitude_m", d.Altitude, "altitude_band_m", d.Band, "time_limit_min", d.TimeLimit)})
	score := pairs("off_line_m", d.OffLine, "altitude_min_percent", d.HeightLow, "altitude_max_percent", d.HeightHigh, "nadir_needs_neighbour", true)
	if len(d.Area) > 0 {
		area := &yaml.Node{Kind: yaml.SequenceNode, Style: yaml.FlowStyle}
		for _, p := range d.Area {
			area.Content = append(area.Content, at(p[0], p[1]))
		}
		score = append(score, value("area"), area)
	}
	put(top, "score", &yaml.Node{Kind: yaml.MappingNode, Content: score})
	out, err := encode(doc)
	if err != nil {
		return nil, err
	}
	_, err = Parse(name, out)
	return out, err
}

// value is a node of a text or a number.
func value(v any) *yaml.Node {
	if n, ok := v.(*yaml.Node); ok {
		return n
	}
	n := new(yaml.Node)
	if err := n.Encode(v); err != nil {
		panic("scenarios: a draft holds what YAML does not") // texts and numbers only
	}
	return n
}

func pairs(keysAndValues ...any) (out []*yaml.Node) {
	for _, v := range keysAndValues {
		out = append(out, value(v))
	}
	return out
}

func at(x, y float64) *yaml.Node {
	return &yaml.Node{Kind: yaml.SequenceNode, Style: yaml.FlowStyle, Content: pairs(x, y)}
}

// put sets a key of a mapping, or adds it at the end.
func put(m *yaml.Node, key string, v any) {
	if k := slot(m, key); k >= 0 {
		m.Content[k] = value(v)
		return
	}
	m.Content = append(m.Content, value(key), value(v))
}

func strike(m *yaml.Node, key string) {
	if k := slot(m, key); k >= 0 {
		m.Content = append(m.Content[:k-1], m.Content[k+1:]...)
	}
}

// section is a key's own mapping, made if it is not there.
func section(m *yaml.Node, key string) *yaml.Node {
	if k := slot(m, key); k >= 0 && m.Content[k].Kind == yaml.MappingNode {
		return m.Content[k]
	}
	put(m, key, &yaml.Node{Kind: yaml.MappingNode})
	return m.Content[slot(m, key)]
}
