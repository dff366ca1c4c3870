package scenarios

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
)

// Change sets one value of an exercise file.
type Change struct {
	Path  string // of keys, such as sea.wind_kn or sonar.channels[0].gain_db
	Value string // as it would be written in the file, without quotes
}

// Edit sets values in an exercise file and returns the file, with its comments
// and the order of its keys; blank lines and the width of its indents may
// change. Sections that the file leaves out are made. The result is read as
// [Parse] reads it: the error is [Faults], with the file's name in front.
func Edit(name string, source []byte, changes []Change) ([]byte, error) {
	r := &report{file: name}
	if len(source) > maxSource {
		r.add(Fault{Problem: "is too large for an exercise", Want: "at most 1 MiB"})
		return nil, r.err()
	}
	doc, err := parseDocument(source)
	if err != nil {
		r.add(syntaxFault(err))
		return nil, r.err()
	}
	for _, c := range changes {
		if problem := set(doc.Content[0], rules(), c.Path, c.Value); problem != "" {
			r.add(Fault{Path: c.Path, Problem: problem})
		}
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	out, err := encode(doc)
	if err != nil {
		r.add(Fault{Problem: "cannot be written: " + err.Error()})
		return nil, r.err()
	}
	if _, err := Parse(name, out); err != nil {
		return nil, err
	}
	return out, nil
}

// set sets the value at a path below a node and says what is wrong with the
// path; whether the value will do is for the reader to say.
func set(n *yaml.Node, u *rule, path, value string) (problem string) {
	for path != "" {
		var step string
		step, path = cutPath(path)
		if index, isIndex := strings.CutPrefix(step, "["); isIndex {
			i, err := strconv.Atoi(strings.TrimSuffix(index, "]"))
			if err != nil || u.form != list || n.Kind != yaml.SequenceNode || i < 0 || i >= len(n.Content) {
				return "names no item of a list in the file"
			}
			n, u = n.Content[i], u.items
			continue
		}
		k := slices.IndexFunc(u.fields, func(f *rule) bool { return f.key == step })
		if u.form != mapping || k < 0 {
			return "is no key of an exercise"
		}
		u = u.fields[k]
		if n.Kind == yaml.ScalarNode && n.ShortTag() == "!!null" { // a section given no value
			*n = yaml.Node{Kind: yaml.MappingNode, HeadComment: n.HeadComment, LineComment: n.LineComment, FootComment: n.FootComment}
		}
		if n.Kind != yaml.MappingNode {
			return "lies in something that is not keys with values"
		}
		at := slot(n, step)
		if at < 0 {
			fresh := &yaml.Node{Kind: yaml.MappingNode}
			if path == "" {
				fresh = &yaml.Node{Kind: yaml.ScalarNode}
			}
			n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: step}, fresh)
			at = len(n.Content) - 1
		}
		n = n.Content[at]
	}
	switch u.form {
	case mapping, list, pair:
		return "is not a single value"
	}
	if n.Kind != yaml.ScalarNode {
		return fmt.Sprintf("stands in the file as %s", show(n))
	}
	n.Value, n.Tag, n.Style = value, "", 0
	if u.form == text {
		n.Tag = "!!str"
	}
	return ""
}

// cutPath cuts the first step off a path: a key, or an index in brackets.
func cutPath(path string) (step, rest string) {
	if i := strings.IndexAny(path[1:], ".["); i >= 0 {
		step, rest = path[:i+1], path[i+1:]
	} else {
		step = path
	}
	return step, strings.TrimPrefix(rest, ".")
}

// withoutObjects is an exercise file without what lies on its floor: objects, those that
// chance places, and pipelines.
func withoutObjects(name string, source []byte) ([]byte, error) {
	doc, err := parseDocument(source)
	if err != nil {
		return nil, err
	}
	if at := slot(doc.Content[0], "seabed"); at >= 0 && doc.Content[0].Content[at].Kind == yaml.MappingNode {
		ground := doc.Content[0].Content[at]
		for i := len(ground.Content) - 2; i >= 0; i -= 2 {
			switch ground.Content[i].Value {
			case "objects", "placed", "pipelines", "elsewhere":
				ground.Content = slices.Delete(ground.Content, i, i+2)
			}
		}
	}
	out, err := encode(doc)
	if err != nil {
		return nil, err
	}
	_, err = Parse(name, out)
	return out, err
}
