// Package cdftest reads classic netCDF files of the 64-bit data variant for tests, by
// the grammar of the published format and with none of the writer's code. It reads what
// is well formed, and fails the test that gave it anything else.
package cdftest

import (
	"encoding/binary"
	"math"
	"testing"
)

// File is a file as it was read.
type File struct {
	Records int
	Dims    []Dim
	Attrs   map[string]any
	Vars    map[string]*Var
}

// Dim is a dimension, of length 0 the record dimension.
type Dim struct {
	Name string
	Len  int
}

// Var is a variable with all its values, as numbers.
type Var struct {
	Dims   []string
	Type   int
	Attrs  map[string]any // text is a string, anything else []float64
	Values []float64
	Text   string // of a variable of characters
}

type cursor struct {
	t  testing.TB
	b  []byte
	at int
}

func (c *cursor) take(n int) []byte {
	c.t.Helper()
	if n < 0 || c.at+n > len(c.b) {
		c.t.Fatalf("the file ends at %d where %d more bytes should be", len(c.b), n)
	}
	c.at += n
	return c.b[c.at-n : c.at]
}

func (c *cursor) int32() int { return int(int32(binary.BigEndian.Uint32(c.take(4)))) }
func (c *cursor) int64() int { return int(int64(binary.BigEndian.Uint64(c.take(8)))) }

func (c *cursor) skip() {
	for c.at%4 != 0 {
		if c.take(1)[0] != 0 {
			c.t.Fatalf("byte %d: padding that is not zero", c.at-1)
		}
	}
}

func (c *cursor) name() string {
	s := string(c.take(c.int64()))
	c.skip()
	return s
}

func (c *cursor) list(tag int) int {
	got, n := c.int32(), c.int64()
	if got != tag && (got != 0 || n != 0) {
		c.t.Fatalf("byte %d: a list tagged %#x, want %#x", c.at-12, got, tag)
	}
	return n
}

var sizes = map[int]int{1: 1, 2: 1, 3: 2, 4: 4, 5: 4, 6: 8, 7: 1, 8: 2, 9: 4, 10: 8, 11: 8}

func number(kind int, b []byte) float64 {
	e := binary.BigEndian
	switch kind {
	case 1:
		return float64(int8(b[0]))
	case 2, 7:
		return float64(b[0])
	case 3:
		return float64(int16(e.Uint16(b)))
	case 4:
		return float64(int32(e.Uint32(b)))
	case 5:
		return float64(math.Float32frombits(e.Uint32(b)))
	case 6:
		return math.Float64frombits(e.Uint64(b))
	case 8:
		return float64(e.Uint16(b))
	case 9:
		return float64(e.Uint32(b))
	case 10:
		return float64(int64(e.Uint64(b)))
	}
	return float64(e.Uint64(b))
}

func (c *cursor) attrs() map[string]any {
	m := map[string]any{}
	for range c.list(0x0c) {
		name, kind, n := c.name(), c.int32(), 0
		n = c.int64()
		b := c.take(n * sizes[kind])
		c.skip()
		if kind == 2 {
			m[name] = string(b)
			continue
		}
		var values []float64
		for i := range n {
			values = append(values, number(kind, b[i*sizes[kind]:]))
		}
		m[name] = values
	}
	return m
}

// Read reads a file whole. The name of a variable that is not among those wanted, if
// any are, is read without its values.
func Read(t testing.TB, b []byte, wanted ...string) *File {
	t.Helper()
	c := &cursor{t: t, b: b}
	if magic := string(c.take(4)); magic != "CDF\x05" {
		t.Fatalf("it begins with %q", magic)
	}
	f := &File{Records: c.int64(), Vars: map[string]*Var{}}
	for range c.list(0x0a) {
		f.Dims = append(f.Dims, Dim{c.name(), c.int64()})
	}
	f.Attrs = c.attrs()
	type place struct {
		v                 *Var
		begin, size, vols int
		recorded, wanted  bool
	}
	var places []place
	stride, recorded := 0, 0
	for range c.list(0x0b) {
		p := place{v: new(Var), vols: 1, wanted: len(wanted) == 0}
		name := c.name()
		for _, w := range wanted {
			p.wanted = p.wanted || w == name
		}
		for range c.int64() {
			d := f.Dims[c.int64()]
			p.v.Dims = append(p.v.Dims, d.Name)
			if d.Len == 0 {
				p.recorded = true
			} else {
				p.vols *= d.Len
			}
		}
		p.v.Attrs = c.attrs()
		p.v.Type = c.int32()
		p.size, p.begin = c.int64(), c.int64()
		if want := (p.vols*sizes[p.v.Type] + 3) / 4 * 4; p.size != want {
			t.Fatalf("%s: vsize %d, want %d", name, p.size, want)
		}
		if p.recorded {
			stride += p.size
			recorded++
		}
		f.Vars[name] = p.v
		places = append(places, p)
	}
	for _, p := range places {
		if p.recorded && recorded == 1 {
			stride = p.vols * sizes[p.v.Type]
		}
	}
	for _, p := range places {
		times := 1
		if p.recorded {
			times = f.Records
		}
		if !p.wanted {
			continue
		}
		for r := range times {
			c.at = p.begin + r*stride
			slab := c.take(p.vols * sizes[p.v.Type])
			if p.v.Type == 2 {
				p.v.Text += string(slab)
			}
			for i := range p.vols {
				p.v.Values = append(p.v.Values, number(p.v.Type, slab[i*sizes[p.v.Type]:]))
			}
		}
	}
	return f
}
