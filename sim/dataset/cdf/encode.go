package cdf

import (
	"encoding/binary"
	"fmt"
	"io"
	"math"
)

var big = binary.BigEndian

// Tags of the lists in a header.
const (
	dimensions = 0x0a
	variables  = 0x0b
	attributes = 0x0c
)

// head is the header for so many records.
func (l *Layout) head(records int64) []byte {
	s := &l.schema
	b := []byte("CDF\x05")
	b = big.AppendUint64(b, uint64(records))
	b = list(b, dimensions, len(s.Dims))
	for _, d := range s.Dims {
		b = name(b, d.Name)
		b = big.AppendUint64(b, uint64(d.Len))
	}
	b = attrs(b, s.Attrs)
	b = list(b, variables, len(s.Vars))
	for i := range s.Vars {
		v, p := &s.Vars[i], &l.placed[i]
		b = name(b, v.Name)
		b = big.AppendUint64(b, uint64(len(p.dims)))
		for _, d := range p.dims {
			b = big.AppendUint64(b, uint64(d))
		}
		b = attrs(b, v.Attrs)
		b = big.AppendUint32(b, uint32(v.Type))
		b = big.AppendUint64(b, uint64(padded(p.size)))
		begin := l.header + p.begin
		if p.recorded {
			begin += int64(len(l.fixed))
		}
		b = big.AppendUint64(b, uint64(begin))
	}
	return b
}

// list begins a list; one with nothing in it is ABSENT.
func list(b []byte, tag uint32, n int) []byte {
	if n == 0 {
		tag = 0
	}
	return big.AppendUint64(big.AppendUint32(b, tag), uint64(n))
}

func name(b []byte, s string) []byte {
	return pad(append(big.AppendUint64(b, uint64(len(s))), s...))
}

func attrs(b []byte, all []Attr) []byte {
	b = list(b, attributes, len(all))
	for _, a := range all {
		values, kind, n, _ := encode(nil, a.Value) // checked when it was laid
		b = name(b, a.Name)
		b = big.AppendUint32(b, uint32(kind))
		b = big.AppendUint64(b, uint64(n))
		b = pad(append(b, values...))
	}
	return b
}

// encode appends values as the format has them, and says of what type they are and how
// many.
func encode(b []byte, value any) (out []byte, kind Type, n int, err error) {
	switch v := value.(type) {
	case string:
		return append(b, v...), Char, len(v), nil
	case int8:
		return encode(b, []int8{v})
	case int16:
		return encode(b, []int16{v})
	case int32:
		return encode(b, []int32{v})
	case float32:
		return encode(b, []float32{v})
	case float64:
		return encode(b, []float64{v})
	case uint8:
		return encode(b, []uint8{v})
	case uint16:
		return encode(b, []uint16{v})
	case uint32:
		return encode(b, []uint32{v})
	case int64:
		return encode(b, []int64{v})
	case uint64:
		return encode(b, []uint64{v})
	case []uint8:
		return append(b, v...), UByte, len(v), nil
	case []int8, []int16, []int32, []float32, []float64, []uint16, []uint32, []int64, []uint64:
		out, err := binary.Append(b, big, v)
		return out, typeOf(v), (len(out) - len(b)) / int(typeOf(v).Size()), err
	}
	return nil, 0, 0, fmt.Errorf("the format has no %T", value)
}

func typeOf(slice any) Type {
	switch slice.(type) {
	case []int8:
		return Byte
	case []int16:
		return Short
	case []int32:
		return Int
	case []float32:
		return Float
	case []float64:
		return Double
	case []uint16:
		return UShort
	case []uint32:
		return UInt
	case []int64:
		return Int64
	}
	return UInt64
}

// Encode is values as the format has them.
func Encode(value any) ([]byte, error) {
	b, _, _, err := encode(nil, value)
	return b, err
}

// Schema returns the schema as it was laid out.
func (l *Layout) Schema() *Schema { return &l.schema }

// WriteHead writes all that stands before the records of a file that will hold so many.
func (l *Layout) WriteHead(w io.Writer, records int64) error {
	if _, err := w.Write(l.head(records)); err != nil {
		return err
	}
	_, err := w.Write(l.fixed)
	return err
}

// RecordSize is how many bytes a record takes: records follow each other without a gap.
func (l *Layout) RecordSize() int64 { return l.record }

// Slab is the part of a record that a variable's values lie in, in the order of its
// dimensions; nil if there is no such variable by record. Put them there with
// [PutFloat64] and the others.
func (l *Layout) Slab(record []byte, variable string) []byte {
	for i := range l.schema.Vars {
		if p := &l.placed[i]; l.schema.Vars[i].Name == variable && p.recorded {
			return record[p.begin : p.begin+p.size]
		}
	}
	return nil
}

// PutUint16 puts values into a slab, or as many as have room.
func PutUint16(slab []byte, values ...uint16) {
	n := min(len(values), len(slab)/2)
	slab = slab[:2*n]
	for i, v := range values[:n] {
		big.PutUint16(slab[2*i:], v)
	}
}

// PutFloat64 puts values into a slab, or as many as have room.
func PutFloat64(slab []byte, values ...float64) {
	for i, v := range values[:min(len(values), len(slab)/8)] {
		big.PutUint64(slab[8*i:], math.Float64bits(v))
	}
}

// PutUint64 puts values into a slab, or as many as have room.
func PutUint64(slab []byte, values ...uint64) {
	for i, v := range values[:min(len(values), len(slab)/8)] {
		big.PutUint64(slab[8*i:], v)
	}
}

// PutInt32 puts a value into a slab.
func PutInt32(slab []byte, v int32) { big.PutUint32(slab, uint32(v)) }
