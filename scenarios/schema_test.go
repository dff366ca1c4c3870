package scenarios

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v3"
)

func TestSchemaFileIsCurrent(t *testing.T) {
	file, err := os.ReadFile("exercise.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(file, Schema()) {
		t.Error("exercise.schema.json is not what the tags say; run go generate ./scenarios")
	}
}

func compileSchema(t testing.TB) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("exercise.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile("exercise.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

// The schema and the loader's first pass must say the same of any file: an
// independent validator of JSON Schema judges each mutation beside the loader.
func TestSchemaAndLoaderAgree(t *testing.T) {
	j := judge{t: t, schema: compileSchema(t), stride: 1}
	whole := everything(rules())
	if testing.Short() {
		j.stride = 6
	}
	j.mutate(whole, whole, rules(), "")
	j.stride = 40 // the embedded ones hold much the same keys, and there are twenty
	for _, info := range Embedded() {
		source, err := exercises.ReadFile("exercises/" + info.Name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		var tree any
		if err := yaml.Unmarshal(source, &tree); err != nil {
			t.Fatal(err)
		}
		tree = plain(tree)
		j.agree(tree, info.Name)
		tree = cut(tree)
		j.mutate(tree, tree, rules(), "")
	}
	t.Logf("%d mutations, %d of them sound", j.tried, j.sound)
	if j.sound < 400 || j.tried-j.sound < 2000 {
		t.Errorf("got %d mutations, %d of them sound; too few of one sort to mean anything", j.tried, j.sound)
	}
}

// plain gives dates back as the text they are in JSON.
func plain(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k, x := range v {
			v[k] = plain(x)
		}
	case []any:
		for i, x := range v {
			v[i] = plain(x)
		}
	case time.Time:
		return v.Format(time.RFC3339)
	}
	return v
}

// cut shortens the lists: more of the same would only take longer.
func cut(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k, x := range v {
			v[k] = cut(x)
		}
	case []any:
		v = v[:min(len(v), 3)]
		for i, x := range v {
			v[i] = cut(x)
		}
		return v
	}
	return v
}

// everything is an exercise that gives every key there is.
func everything(u *rule) any {
	switch u.form {
	case mapping:
		m := map[string]any{}
		for _, f := range u.fields {
			m[f.key] = everything(f)
		}
		return m
	case list:
		var l []any
		for range max(u.fewest, 1) {
			l = append(l, everything(u.items))
		}
		return l
	case pair:
		return []any{u.lo, u.hi}
	case number:
		return (u.lo + u.hi) / 2
	case integer:
		return int(u.hi)
	case flag:
		return true
	}
	if u.enum != nil {
		return u.enum[len(u.enum)-1]
	}
	if u.filed {
		return "o"
	}
	return "üo"
}

type judge struct {
	t            *testing.T
	schema       *jsonschema.Schema
	stride       int // of mutations judged
	asked        int
	tried, sound int
}

// agree asks both for their verdict.
func (j *judge) agree(tree any, what string) {
	j.t.Helper()
	if j.asked++; j.asked%j.stride != 0 {
		return
	}
	r := &reader{report: report{file: "x"}, lines: map[string]int{}}
	r.value(node(tree), rules(), "")
	err := j.schema.Validate(tree)
	if (err == nil) != (len(r.faults) == 0) {
		j.t.Errorf("%s: loader says %v, schema says %v", what, r.err(), err)
	}
	j.tried++
	if err == nil {
		j.sound++
	}
	if j.tried%100 == 0 { // the same by way of bytes and viper
		source, err := yaml.Marshal(tree)
		if err != nil {
			j.t.Fatal(err)
		}
		_, byBytes, err := read[exerciseFile]("x", source, rules(), "an exercise")
		if fs, ok := err.(Faults); ok {
			byBytes = &reader{report: report{faults: fs}}
		} else if err != nil {
			j.t.Fatal(err)
		}
		if (len(byBytes.faults) == 0) != (len(r.faults) == 0) {
			j.t.Errorf("%s: by bytes %v, by nodes %v", what, byBytes.faults, r.faults)
		}
	}
}

// node builds what the YAML parser would, at a tenth of the time.
func node(v any) *yaml.Node {
	scalar := func(tag, value string) *yaml.Node {
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: tag, Value: value}
	}
	switch v := v.(type) {
	case map[string]any:
		n := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
		for k, x := range v {
			n.Content = append(n.Content, scalar("!!str", k), node(x))
		}
		return n
	case []any:
		n := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}
		for _, x := range v {
			n.Content = append(n.Content, node(x))
		}
		return n
	case string:
		return scalar("!!str", v)
	case bool:
		return scalar("!!bool", strconv.FormatBool(v))
	case int:
		return scalar("!!int", strconv.Itoa(v))
	case float64:
		return scalar("!!float", strconv.FormatFloat(v, 'g', -1, 64))
	}
	return scalar("!!null", "null")
}

// mutate spoils the tree at every place within v in every way, one at a time.
func (j *judge) mutate(tree, v any, u *rule, path string) {
	switch v := v.(type) {
	case map[string]any:
		v["unheard_of"] = 1
		j.agree(tree, path+" with an unknown key")
		delete(v, "unheard_of")
		for _, f := range u.fields {
			at := join(path, f.key)
			was, given := v[f.key]
			if !given {
				continue
			}
			delete(v, f.key)
			j.agree(tree, at+" left out")
			v[strings.ToUpper(f.key)] = was
			j.agree(tree, at+" in upper case")
			delete(v, strings.ToUpper(f.key))
			for _, odd := range oddities(f) {
				v[f.key] = odd
				j.agree(tree, fmt.Sprintf("%s: %v", at, odd))
			}
			v[f.key] = was
			j.mutate(tree, was, f, at)
		}
	case []any:
		item := u.items
		if u.form == pair {
			coordinate := *u
			coordinate.form = number
			item = &coordinate
		}
		for i := range min(len(v), 2) {
			at := path + "[" + strconv.Itoa(i) + "]"
			was := v[i]
			for _, odd := range oddities(item) {
				v[i] = odd
				j.agree(tree, fmt.Sprintf("%s: %v", at, odd))
			}
			v[i] = was
			j.mutate(tree, was, item, at)
		}
	}
}

// oddities are values of every form, and those about the bounds.
func oddities(u *rule) []any {
	odd := []any{nil, true, "", "5", 5, 1.5, -1e12, []any{}, []any{1, "x"}, map[string]any{}}
	switch u.form {
	case number, integer:
		odd = append(odd, u.lo, u.hi, math.Nextafter(u.lo, math.Inf(-1)), math.Nextafter(u.hi, math.Inf(1)))
	case text:
		odd = append(odd, strings.Repeat("ü", u.runes), strings.Repeat("ü", u.runes+1), "2031-05-14T08:30:00Z", "two\nlines", "\x1b[31m", "\u0085", "a\u202eb", "a\u2028b")
		if u.filed {
			odd = append(odd, strings.Repeat("a", u.runes), strings.Repeat("a", u.runes+1), "a/b", "..", ".", "a.", " a", "a b", "a.b", "-a_1", "a:b", "naïve")
		}
		for _, name := range u.enum {
			odd = append(odd, name, strings.ToUpper(name))
		}
	case pair:
		odd = append(odd, []any{u.lo, u.hi}, []any{u.lo - 1, u.hi}, []any{u.lo, u.hi + 1}, []any{1}, []any{1, 2, 3})
	case list:
		one := everything(u.items)
		for _, n := range []int{u.fewest - 1, u.fewest, u.most, u.most + 1} {
			if n >= 0 {
				long := make([]any, n)
				for i := range long {
					long[i] = one
				}
				odd = append(odd, long)
			}
		}
	}
	return odd
}
