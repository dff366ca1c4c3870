package scenarios

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/spf13/viper"
	"go.yaml.in/yaml/v3"
)

// reader checks a file against the rules. It is the decoder that viper is
// given for YAML, because viper's own keeps the last of two equal keys, lowers
// the case of keys before anyone can object, and knows no lines.
type reader struct {
	what string // the file is, for people; an exercise if empty
	report
	root  *rule          // what the file may hold
	lines map[string]int // where each path stands
}

// Decoder implements [viper.DecoderRegistry] for the only format there is.
func (r *reader) Decoder(string) (viper.Decoder, error) { return r, nil }

// Decode fills settings with everything sound in the source and with the
// defaults of what is left out. What is not sound becomes faults, not an
// error, so that the checks across sections still get to see the rest.
func (r *reader) Decode(source []byte, settings map[string]any) error {
	doc, err := parseYAML(source)
	if err != nil {
		r.add(syntaxFault(err))
		return nil
	}
	top, _ := r.value(doc, r.root, "")
	for k, v := range top.(map[string]any) {
		settings[k] = v
	}
	return nil
}

func (r *reader) fault(n *yaml.Node, path, value, problem, want string) {
	r.add(Fault{Line: n.Line, Path: path, Value: value, Problem: problem, Want: want})
}

// value reads one node. A mapping is returned even when parts of it are
// faulty; anything else only when ok.
func (r *reader) value(n *yaml.Node, u *rule, path string) (v any, ok bool) {
	r.lines[path] = n.Line
	switch {
	case n.Kind == yaml.AliasNode:
		r.fault(n, path, "*"+n.Value, "is an alias, which exercises do not use", u.want())
	case n.Kind == yaml.ScalarNode && n.ShortTag() == "!!null":
		r.fault(n, path, "", "is given no value", u.want())
	case u.form == mapping:
		if n.Kind == yaml.MappingNode && n.ShortTag() == "!!map" {
			return r.mapping(n, u, path)
		}
		r.wrong(n, u, path)
	case u.form == list:
		if n.Kind == yaml.SequenceNode && n.ShortTag() == "!!seq" {
			return r.list(n, u, path)
		}
		r.wrong(n, u, path)
	case u.form == pair:
		return r.pair(n, u, path)
	case n.Kind != yaml.ScalarNode:
		r.wrong(n, u, path)
	case u.form == text:
		return r.text(n, u, path)
	case u.form == flag:
		var b bool
		if n.ShortTag() == "!!bool" && n.Decode(&b) == nil {
			return b, true
		}
		r.wrong(n, u, path)
	default:
		return r.number(n, u, path)
	}
	if u.form == mapping {
		return defaults(u), false
	}
	return nil, false
}

// wrong reports a value of the wrong form.
func (r *reader) wrong(n *yaml.Node, u *rule, path string) {
	is := map[form]string{
		mapping: "is not keys with values", list: "is not a list", pair: "is not a pair", number: "is not a number",
		integer: "is not a whole number", text: "is not text", flag: "is neither true nor false",
	}[u.form]
	want := u.want()
	if u.form == text && (n.ShortTag() == "!!int" || n.ShortTag() == "!!float" || n.ShortTag() == "!!bool") {
		want += ", in quotes"
	}
	r.fault(n, path, show(n), is, want)
}

// show is a node for a fault.
func show(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a set of keys"
	case yaml.SequenceNode:
		return "a list"
	}
	if tag := n.ShortTag(); tag == "!!int" || tag == "!!float" || tag == "!!bool" {
		return strings.Trim(shorten(n.Value), `"`)
	}
	return shorten(n.Value)
}

func (r *reader) mapping(n *yaml.Node, u *rule, path string) (map[string]any, bool) {
	if kind := u.kind(n); kind != nil {
		n = filled(n, kind)
	}
	m := make(map[string]any, len(u.fields))
	seen := make(map[string]int, len(u.fields))
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		k := slices.IndexFunc(u.fields, func(f *rule) bool { return f.key == key.Value })
		if key.Kind != yaml.ScalarNode || k < 0 {
			r.unknown(key, u, path)
			continue
		}
		field := u.fields[k]
		at := join(path, field.key)
		if first, twice := seen[field.key]; twice {
			r.fault(key, at, "", fmt.Sprintf("is given twice, first on line %d", first), "")
			continue
		}
		seen[field.key] = key.Line
		if v, ok := r.value(value, field, at); ok || field.form == mapping {
			m[field.key] = v
		}
	}
	for _, field := range u.fields {
		if _, ok := seen[field.key]; ok {
			continue
		}
		if field.required {
			r.fault(n, join(path, field.key), "", "is missing", field.want())
		}
		if v := defaultOf(field); v != nil {
			m[field.key] = v
		}
	}
	return m, true
}

func (r *reader) unknown(key *yaml.Node, u *rule, path string) {
	if len(r.faults) >= maxFaults {
		r.more++ // spare the search for a likely name
		return
	}
	if key.Kind != yaml.ScalarNode {
		r.fault(key, path, show(key), "is no key", "plain text")
		return
	}
	names := make([]string, len(u.fields))
	for i, f := range u.fields {
		names[i] = f.key
	}
	want := "one of " + strings.Join(names, ", ")
	if near := nearest(key.Value, names); near != "" {
		want = near
	}
	at := key.Value
	if at == "" || len(at) > 40 || strings.ContainsFunc(at, odd) {
		at = shorten(at)
	}
	r.fault(key, join(path, at), "", "is no key of "+cmp.Or(r.what, "an exercise"), want)
}

// odd reports a character that a key is better quoted for.
func odd(c rune) bool {
	return c != '_' && c != '-' && (c < '0' || c > '9') && (c < 'a' || c > 'z') && (c < 'A' || c > 'Z')
}

// defaultOf is the value of a field left out; nil if it has none.
func defaultOf(u *rule) any {
	if u.form == mapping {
		return defaults(u)
	}
	return u.fallback
}

func defaults(u *rule) map[string]any {
	m := make(map[string]any, len(u.fields))
	for _, f := range u.fields {
		if v := defaultOf(f); v != nil {
			m[f.key] = v
		}
	}
	return m
}

func (r *reader) list(n *yaml.Node, u *rule, path string) (any, bool) {
	if count := len(n.Content); count < u.fewest || count > u.most {
		r.fault(n, path, "", fmt.Sprintf("has %d items", count), u.want())
		return nil, false // an endless list must not be walked
	}
	vs := make([]any, len(n.Content))
	for i, item := range n.Content {
		if v, ok := r.value(item, u.items, fmt.Sprintf("%s[%d]", path, i)); ok || u.items.form == mapping {
			vs[i] = v
			continue
		}
		switch u.items.form { // keep the place of a faulty item
		case pair:
			vs[i] = [2]float64{}
		case text:
			vs[i] = ""
		}
	}
	return vs, true
}

func (r *reader) pair(n *yaml.Node, u *rule, path string) (any, bool) {
	if n.Kind != yaml.SequenceNode || n.ShortTag() != "!!seq" || len(n.Content) != 2 {
		r.wrong(n, u, path)
		return nil, false
	}
	coordinate := *u
	coordinate.form = number
	var p [2]float64
	good := true
	for i, c := range n.Content {
		at := fmt.Sprintf("%s[%d]", path, i)
		v, ok := r.value(c, &coordinate, at)
		if good = good && ok; ok {
			p[i] = v.(float64)
		}
	}
	return p, good
}

func (r *reader) text(n *yaml.Node, u *rule, path string) (any, bool) {
	// A bare date is text here: only some fields are dates, and those say which.
	if tag := n.ShortTag(); tag != "!!str" && tag != "!!timestamp" {
		r.wrong(n, u, path)
		return nil, false
	}
	switch {
	case u.enum != nil && !slices.Contains(u.enum, n.Value):
		want := u.want()
		if near := nearest(n.Value, u.enum); near != "" {
			want = near
		}
		r.fault(n, path, shorten(n.Value), "is not known", want)
	case n.Value == "":
		r.fault(n, path, `""`, "is empty", u.want())
	case u.enum == nil && utf8.RuneCountInString(n.Value) > u.runes:
		r.fault(n, path, shorten(n.Value), "is too long", u.want())
	case u.enum == nil && strings.ContainsFunc(n.Value, u.unprintable):
		r.fault(n, path, shorten(n.Value), "holds control or format characters", u.want())
	case u.filed && !fileName.MatchString(n.Value):
		r.fault(n, path, shorten(n.Value), "cannot be part of a file name", u.want())
	default:
		return n.Value, true
	}
	return nil, false
}

func (r *reader) number(n *yaml.Node, u *rule, path string) (any, bool) {
	var v float64
	if tag := n.ShortTag(); (tag != "!!int" && tag != "!!float") || n.Decode(&v) != nil {
		r.wrong(n, u, path)
		return nil, false
	}
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		r.fault(n, path, show(n), "is not finite", u.want())
	case u.form == integer && v != math.Trunc(v):
		r.wrong(n, u, path)
	case v < u.lo || v > u.hi || (u.above && v == u.lo):
		r.fault(n, path, show(n), "is out of range", u.want())
	case u.form == integer:
		return int(v), true
	default:
		return v, true
	}
	return nil, false
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}
