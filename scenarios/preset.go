package scenarios

import (
	"embed"
	"slices"
	"sync"

	"go.yaml.in/yaml/v3"
)

// Presets are sections by kind, written as an exercise would write them. A
// section that names its kind takes from it what it does not say itself.
//
//go:embed presets/*.yaml
var presetFiles embed.FS

// preset is the kinds of one section in the order of its file.
type preset struct {
	names []string
	kinds map[string]*yaml.Node
}

var presets = sync.OnceValue(func() map[string]preset {
	all := map[string]preset{}
	for _, section := range []string{"vessel", "cable", "fish", "winch"} {
		source, err := presetFiles.ReadFile("presets/" + section + ".yaml")
		if err != nil {
			panic("scenarios: a preset file is missing")
		}
		root, err := parseYAML(source)
		if err != nil {
			panic("scenarios: a preset file is broken")
		}
		p := preset{kinds: map[string]*yaml.Node{}}
		for i := 0; i+1 < len(root.Content); i += 2 {
			name := root.Content[i].Value
			p.names = append(p.names, name)
			p.kinds[name] = root.Content[i+1]
		}
		all[section] = p
	}
	return all
})

// kind is the preset that a mapping asks for, nil if its section has no kinds
// or it names none that is known.
func (u *rule) kind(n *yaml.Node) *yaml.Node {
	k := slices.IndexFunc(u.fields, func(f *rule) bool { return f.presets != "" })
	if k < 0 {
		return nil
	}
	field := u.fields[k]
	name, _ := field.fallback.(string)
	if given := slot(n, field.key); given >= 0 {
		name = n.Content[given].Value
	}
	return presets()[field.presets].kinds[name]
}

// slot is the index of the value of a mapping's key, -1 if it has none.
func slot(n *yaml.Node, key string) int {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return i + 1
		}
	}
	return -1
}

// filled is a mapping with what it leaves out taken from a preset, as though it
// stood on the mapping's own line.
func filled(n, from *yaml.Node) *yaml.Node {
	out := *n
	out.Content = slices.Clone(n.Content)
	for i := 0; i+1 < len(from.Content); i += 2 {
		key, value := from.Content[i], from.Content[i+1]
		own := slot(&out, key.Value)
		switch {
		case own < 0:
			out.Content = append(out.Content, moved(key, n.Line), moved(value, n.Line))
		case value.Kind == yaml.MappingNode && out.Content[own].Kind == yaml.MappingNode:
			out.Content[own] = filled(out.Content[own], value)
		}
	}
	return &out
}

// moved is a copy of a node that stands on another line.
func moved(n *yaml.Node, line int) *yaml.Node {
	out := *n
	out.Line = line
	out.Content = make([]*yaml.Node, len(n.Content))
	for i, c := range n.Content {
		out.Content[i] = moved(c, line)
	}
	return &out
}
