package scenarios

import (
	"fmt"
	"strconv"

	"dryline/seabed/units"
	"dryline/sim/exercise"
	"dryline/sim/trial"

	"go.yaml.in/yaml/v3"
)

// Vary writes the exercise of one run of a trial: a plan's own file with the run's seed,
// weather and targets in it. The result is an exercise file like any other, which the
// window opens. The error is [Faults].
func Vary(name string, source []byte, run *trial.Run) (*exercise.Exercise, []byte, error) {
	changes := []Change{{"seed", strconv.FormatUint(run.Seed, 10)}}
	for _, c := range []struct {
		path string
		v    *float64
	}{
		{"sea.wind_kn", run.Wind}, {"sea.wind_from_deg", run.WindFrom}, {"sea.current_kn", run.Current}, {"sea.current_set_deg", run.Set},
	} {
		if c.v != nil {
			changes = append(changes, Change{c.path, strconv.FormatFloat(*c.v, 'f', 3, 64)})
		}
	}
	r := &report{file: name}
	doc, err := parseDocument(source)
	if err != nil {
		r.add(syntaxFault(err))
		return nil, nil, r.err()
	}
	root := doc.Content[0]
	for _, c := range changes {
		if problem := set(root, rules(), c.Path, c.Value); problem != "" {
			r.add(Fault{Path: c.Path, Problem: problem})
		}
	}
	bed := sectionOf(root, "seabed")
	if bed == nil {
		r.add(Fault{Path: "seabed", Problem: "is not there"})
	}
	if err := r.err(); err != nil {
		return nil, nil, err
	}
	objects := slotOf(bed, "objects", yaml.SequenceNode)
	for _, o := range run.Objects {
		item := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
		put := func(key string, v *yaml.Node) {
			item.Content = append(item.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: key}, v)
		}
		number := func(v float64, digits int) *yaml.Node {
			return &yaml.Node{Kind: yaml.ScalarNode, Value: strconv.FormatFloat(v, 'f', digits, 64)}
		}
		put("name", &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: o.Name})
		put("kind", &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: o.Kind})
		at := &yaml.Node{Kind: yaml.SequenceNode, Style: yaml.FlowStyle}
		at.Content = append(at.Content, number(o.At.X, 2), number(o.At.Y, 2))
		put("at", at)
		put("heading_deg", number(o.Heading/units.Degree, 1))
		put("length_m", number(o.Length, 3))
		put("width_m", number(o.Width, 3))
		put("height_m", number(o.Height, 3))
		if o.Burial > 0 {
			put("burial_m", number(o.Burial, 3))
		}
		objects.Content = append(objects.Content, item)
	}
	out, err := encode(doc)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	ex, err := Parse(name, out)
	if err != nil {
		return nil, nil, err
	}
	return ex, out, nil
}

// VaryOf is [Vary] of an exercise that was read before.
func VaryOf(plan *exercise.Exercise, run *trial.Run) (*exercise.Exercise, []byte, error) {
	return Vary(plan.Name+".yaml", plan.Source, run)
}

// sectionOf is the mapping at a key, nil if there is none.
func sectionOf(n *yaml.Node, key string) *yaml.Node {
	if at := slot(n, key); at >= 0 && n.Content[at].Kind == yaml.MappingNode {
		return n.Content[at]
	}
	return nil
}

// slotOf is the node at a key of a mapping, made if it is not there.
func slotOf(n *yaml.Node, key string, kind yaml.Kind) *yaml.Node {
	if at := slot(n, key); at >= 0 {
		if n.Content[at].Kind != kind {
			*n.Content[at] = yaml.Node{Kind: kind}
		}
		return n.Content[at]
	}
	fresh := &yaml.Node{Kind: kind}
	n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: key}, fresh)
	return fresh
}
