package cdf

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Type is the type of a variable's values, by its number in the format.
type Type int32

// The types (nc_type in the grammar).
const (
	Byte   Type = iota + 1 // int8
	Char                   // text, a byte a character
	Short                  // int16
	Int                    // int32
	Float                  // float32
	Double                 // float64
	UByte                  // uint8
	UShort                 // uint16
	UInt                   // uint32
	Int64                  // int64
	UInt64                 // uint64
)

// Size is how many bytes a value takes.
func (t Type) Size() int64 {
	switch t {
	case Byte, Char, UByte:
		return 1
	case Short, UShort:
		return 2
	case Int, Float, UInt:
		return 4
	case Double, Int64, UInt64:
		return 8
	}
	return 0
}

// Dim is a dimension. Of length 0 it is the record dimension, of which a file has at
// most one.
type Dim struct {
	Name string
	Len  int64
}

// Attr is an attribute of a file or a variable: text (a string), or a number or a slice
// of numbers of a type that the format has.
type Attr struct {
	Name  string
	Value any
}

// Var is a variable over dimensions, slowest first. Where the first is the record
// dimension its values come record by record; of another all are in Data: a string for
// text, a number where there are no dimensions, else a slice of numbers.
type Var struct {
	Name  string
	Type  Type
	Dims  []string
	Attrs []Attr
	Data  any
}

// Schema is all that a file holds but its records.
type Schema struct {
	Dims  []Dim
	Attrs []Attr
	Vars  []Var
}

// Layout is a schema with every variable in its place.
type Layout struct {
	schema Schema
	placed []place
	fixed  []byte // the values of variables that are in no record
	header int64  // bytes
	record int64  // bytes
}

// place is where a variable lies.
type place struct {
	dims     []int
	recorded bool
	size     int64 // bytes of a record's slab, or of all, not padded
	begin    int64 // from the start of the records, or of the fixed values
}

// Lay checks a schema and puts its variables in place.
func Lay(s Schema) (*Layout, error) {
	l := &Layout{schema: s}
	if err := s.check(); err != nil {
		return nil, fmt.Errorf("cdf: %w", err)
	}
	recorded := 0
	for i := range s.Vars {
		v := &s.Vars[i]
		p := place{size: v.Type.Size()}
		for k, name := range v.Dims {
			d := slices.IndexFunc(s.Dims, func(d Dim) bool { return d.Name == name })
			if d < 0 {
				return nil, fmt.Errorf("cdf: variable %s: no dimension %q", v.Name, name)
			}
			p.dims = append(p.dims, d)
			n := s.Dims[d].Len
			if n == 0 {
				if k > 0 {
					return nil, fmt.Errorf("cdf: variable %s: the record dimension has to be its first", v.Name)
				}
				p.recorded = true
				recorded++
				continue
			}
			if p.size > math.MaxInt64/8/n {
				return nil, fmt.Errorf("cdf: variable %s is too large", v.Name)
			}
			p.size *= n
		}
		if p.recorded {
			if v.Data != nil {
				return nil, fmt.Errorf("cdf: variable %s has values, and gets more by record", v.Name)
			}
			p.begin = l.record
			l.record += padded(p.size)
		} else {
			b, kind, _, err := encode(nil, v.Data)
			if err != nil || kind != v.Type || int64(len(b)) != p.size {
				return nil, fmt.Errorf("cdf: variable %s: its values are not %d bytes of its type", v.Name, p.size)
			}
			p.begin = int64(len(l.fixed))
			l.fixed = pad(append(l.fixed, b...))
		}
		l.placed = append(l.placed, p)
	}
	// A single variable by record is not padded ("Note on padding").
	if recorded == 1 {
		for _, p := range l.placed {
			if p.recorded {
				l.record = p.size
			}
		}
	}
	l.header = int64(len(l.head(0)))
	return l, nil
}

func (s *Schema) check() error {
	var names []string
	records := 0
	for _, d := range s.Dims {
		names = append(names, d.Name)
		if d.Len < 0 {
			return fmt.Errorf("dimension %s: length %d", d.Name, d.Len)
		}
		if d.Len == 0 {
			records++
		}
	}
	if records > 1 {
		return errors.New("more than one record dimension")
	}
	if err := checkNames("dimension", names); err != nil {
		return err
	}
	if err := checkAttrs("", s.Attrs); err != nil {
		return err
	}
	names = nil
	for i := range s.Vars {
		v := &s.Vars[i]
		names = append(names, v.Name)
		if v.Type.Size() == 0 {
			return fmt.Errorf("variable %s: type %d", v.Name, v.Type)
		}
		if err := checkAttrs(" of variable "+v.Name, v.Attrs); err != nil {
			return err
		}
	}
	return checkNames("variable", names)
}

func checkAttrs(of string, attrs []Attr) error {
	var names []string
	for _, a := range attrs {
		names = append(names, a.Name)
		if _, _, _, err := encode(nil, a.Value); err != nil {
			return fmt.Errorf("attribute %s%s: %w", a.Name, of, err)
		}
	}
	return checkNames("attribute"+of, names)
}

// checkNames holds names against the grammar: a letter, digit or underscore first, then
// printable characters without a slash, and no space at the end.
func checkNames(what string, names []string) error {
	seen := map[string]bool{}
	for _, n := range names {
		if n == "" || !utf8.ValidString(n) || strings.HasSuffix(n, " ") ||
			strings.ContainsFunc(n, func(r rune) bool { return r == '/' || !unicode.IsPrint(r) }) ||
			n[0] < 0x80 && n[0] != '_' && !unicode.IsLetter(rune(n[0])) && !unicode.IsDigit(rune(n[0])) {
			return fmt.Errorf("%s: %q is no name", what, n)
		}
		if seen[n] {
			return fmt.Errorf("%s: two are called %q", what, n)
		}
		seen[n] = true
	}
	return nil
}

func padded(n int64) int64 { return (n + 3) &^ 3 }

func pad(b []byte) []byte {
	for len(b)%4 != 0 {
		b = append(b, 0)
	}
	return b
}
