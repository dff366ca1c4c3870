package parquet

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"fmt"
	"io"
	"math"
)

// Column is a column of a table: one of []float64, []int64, []bool and []string, of as many
// values as there are rows.
type Column struct {
	Name   string
	Values any
}

// The format's numbers for what is used of it.
const (
	typeBoolean, typeInt64, typeDouble, typeByteArray = 0, 2, 5, 6
	codecGzip                                         = 2
	encodingPlain, encodingRLE                        = 0, 3
	convertedUTF8                                     = 0
)

const magic = "PAR1"

// Write writes a table.
func Write(out io.Writer, name string, columns []Column) error {
	rows := -1
	type chunk struct {
		kind          int
		at            int
		plain, packed int // bytes, header and all
	}
	var file bytes.Buffer
	file.WriteString(magic)
	var chunks []chunk
	for _, c := range columns {
		kind, n, plain := encode(c.Values)
		if kind < 0 {
			return fmt.Errorf("parquet: column %s: no column is made of %T", c.Name, c.Values)
		}
		if rows < 0 {
			rows = n
		}
		if n != rows {
			return fmt.Errorf("parquet: column %s has %d rows, those before it %d", c.Name, n, rows)
		}
		var packed bytes.Buffer
		z, err := gzip.NewWriterLevel(&packed, gzip.BestSpeed)
		if err != nil {
			return err
		}
		if _, err := z.Write(plain); err != nil {
			return err
		}
		if err := z.Close(); err != nil {
			return err
		}
		var head compact
		head.integer(1, 0) // a data page
		head.integer(2, int64(len(plain)))
		head.integer(3, int64(packed.Len()))
		head.structure(5, func(h *compact) {
			h.integer(1, int64(n))
			h.integer(2, encodingPlain)
			h.integer(3, encodingRLE) // of levels, of which there are none
			h.integer(4, encodingRLE)
		})
		head.stop()
		chunks = append(chunks, chunk{kind, file.Len(), len(head.b) + len(plain), len(head.b) + packed.Len()})
		file.Write(head.b)
		file.Write(packed.Bytes())
	}
	rows = max(rows, 0)

	var foot compact
	foot.integer(1, 2) // version
	foot.list(2, thriftStruct, len(columns)+1)
	foot.element(func(e *compact) {
		e.text(4, name)
		e.integer(5, int64(len(columns)))
	})
	for i, c := range columns {
		foot.element(func(e *compact) {
			e.integer(1, int64(chunks[i].kind))
			e.integer(3, 0) // required
			e.text(4, c.Name)
			if chunks[i].kind == typeByteArray {
				e.integer(6, convertedUTF8)
			}
		})
	}
	foot.long(3, int64(rows))
	groups := 1
	if rows == 0 {
		groups = 0
	}
	foot.list(4, thriftStruct, groups)
	for range groups {
		foot.element(func(g *compact) {
			total := 0
			g.list(1, thriftStruct, len(columns))
			for i, c := range columns {
				k := chunks[i]
				total += k.plain
				g.element(func(e *compact) {
					e.long(2, int64(k.at))
					e.structure(3, func(m *compact) {
						m.integer(1, int64(k.kind))
						m.list(2, thriftInt32, 2)
						m.zigzag(encodingPlain)
						m.zigzag(encodingRLE)
						m.list(3, thriftBinary, 1)
						m.bytes(c.Name)
						m.integer(4, codecGzip)
						m.long(5, int64(rows))
						m.long(6, int64(k.plain))
						m.long(7, int64(k.packed))
						m.long(9, int64(k.at))
					})
				})
			}
			g.long(2, int64(total))
			g.long(3, int64(rows))
		})
	}
	foot.text(6, "dryline")
	foot.stop()
	file.Write(foot.b)
	file.Write(binary.LittleEndian.AppendUint32(nil, uint32(len(foot.b))))
	file.WriteString(magic)
	_, err := file.WriteTo(out)
	return err
}

// encode writes values plainly: their type, -1 for none, how many, and their bytes.
func encode(values any) (kind, n int, b []byte) {
	little := binary.LittleEndian
	switch v := values.(type) {
	case []float64:
		for _, x := range v {
			b = little.AppendUint64(b, math.Float64bits(x))
		}
		return typeDouble, len(v), b
	case []int64:
		for _, x := range v {
			b = little.AppendUint64(b, uint64(x))
		}
		return typeInt64, len(v), b
	case []bool: // bits from the lowest on
		b = make([]byte, (len(v)+7)/8)
		for i, x := range v {
			if x {
				b[i/8] |= 1 << (i % 8)
			}
		}
		return typeBoolean, len(v), b
	case []string:
		for _, x := range v {
			b = append(little.AppendUint32(b, uint32(len(x))), x...)
		}
		return typeByteArray, len(v), b
	}
	return -1, 0, nil
}
