package scenarios

import (
	"bytes"
	"encoding/json"
	"strings"
)

// schemaNode is one node of a JSON Schema, its keywords in reading order.
type schemaNode struct {
	Dialect              string          `json:"$schema,omitempty"`
	Title                string          `json:"title,omitempty"`
	Description          string          `json:"description,omitempty"`
	Type                 string          `json:"type"`
	Format               string          `json:"format,omitempty"`
	Enum                 []string        `json:"enum,omitempty"`
	Minimum              json.Number     `json:"minimum,omitempty"`
	ExclusiveMinimum     json.Number     `json:"exclusiveMinimum,omitempty"`
	Maximum              json.Number     `json:"maximum,omitempty"`
	MinLength            int             `json:"minLength,omitempty"`
	MaxLength            int             `json:"maxLength,omitempty"`
	Pattern              string          `json:"pattern,omitempty"`
	MinItems             int             `json:"minItems,omitempty"`
	MaxItems             int             `json:"maxItems,omitempty"`
	Default              json.RawMessage `json:"default,omitempty"`
	Items                *schemaNode     `json:"items,omitempty"`
	Required             []string        `json:"required,omitempty"`
	Properties           properties      `json:"properties,omitempty"`
	AdditionalProperties *bool           `json:"additionalProperties,omitempty"`
}

// properties keep the order of the file's sections, which a map would lose.
type properties []property

type property struct {
	key  string
	node schemaNode
}

// MarshalJSON implements [json.Marshaler].
func (ps properties) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	for i, p := range ps {
		b.WriteByte("{,"[min(i, 1)])
		key, err := json.Marshal(p.key)
		if err != nil {
			return nil, err
		}
		node, err := json.Marshal(p.node)
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(node)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// Schema returns the JSON Schema (draft 2020-12) of an exercise file, for
// editors to check and complete by. It holds what can be said of one value at a
// time; what makes sections fit each other only [Parse] knows.
func Schema() []byte { return schema(rules(), "Dryline exercise") }

func schema(root *rule, title string) []byte {
	node := schemaOf(root)
	node.Dialect = "https://json-schema.org/draft/2020-12/schema"
	node.Title = title
	out, err := json.MarshalIndent(node, "", "  ")
	if err != nil {
		panic("scenarios: schema cannot be written")
	}
	return append(out, '\n')
}

func schemaOf(u *rule) schemaNode {
	n := schemaNode{Description: describe(u), Format: u.format}
	bounds := func(n *schemaNode) {
		n.Maximum = json.Number(u.max)
		if u.above {
			n.ExclusiveMinimum = json.Number(u.min)
		} else {
			n.Minimum = json.Number(u.min)
		}
	}
	switch u.form {
	case mapping:
		n.Type, n.AdditionalProperties = "object", new(bool)
		for _, f := range u.fields {
			n.Properties = append(n.Properties, property{f.key, schemaOf(f)})
			if f.required {
				n.Required = append(n.Required, f.key)
			}
		}
	case list:
		n.Type, n.MinItems, n.MaxItems = "array", u.fewest, u.most
		items := schemaOf(u.items)
		items.Description = ""
		n.Items = &items
	case pair:
		coordinate := schemaNode{Type: "number"}
		bounds(&coordinate)
		n.Type, n.MinItems, n.MaxItems, n.Items = "array", 2, 2, &coordinate
	case number, integer:
		n.Type = map[form]string{number: "number", integer: "integer"}[u.form]
		bounds(&n)
	case text:
		n.Type = "string"
		if n.Enum = u.enum; n.Enum == nil {
			n.MinLength, n.MaxLength, n.Pattern = 1, u.runes, u.pattern()
		}
	case flag:
		n.Type = "boolean"
	}
	if u.fallback != nil {
		n.Default, _ = json.Marshal(u.fallback)
	}
	return n
}

// describe puts together what people read of a rule.
func describe(u *rule) string {
	var parts []string
	if u.doc != "" {
		parts = append(parts, u.doc)
	}
	if u.unit != "" {
		parts = append(parts, "Unit: "+u.unit+".")
	}
	if u.absent != "" {
		parts = append(parts, "If left out: "+u.absent+".")
	}
	return strings.Join(parts, " ")
}
