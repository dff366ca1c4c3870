package parquet

import "encoding/binary"

// Types of Thrift's compact protocol.
const (
	thriftInt32  = 5
	thriftInt64  = 6
	thriftBinary = 8
	thriftList   = 9
	thriftStruct = 12
)

// compact writes a structure in Thrift's compact protocol; fields come in the order of
// their numbers.
type compact struct {
	b    []byte
	last int // number of the field before
}

func (c *compact) field(number, kind int) {
	c.b = append(c.b, byte(number-c.last)<<4|byte(kind)) // numbers here are never 16 apart
	c.last = number
}

func (c *compact) zigzag(v int64) { c.b = binary.AppendVarint(c.b, v) }

func (c *compact) integer(number int, v int64) {
	c.field(number, thriftInt32)
	c.zigzag(v)
}

func (c *compact) long(number int, v int64) {
	c.field(number, thriftInt64)
	c.zigzag(v)
}

func (c *compact) bytes(s string) {
	c.b = append(binary.AppendUvarint(c.b, uint64(len(s))), s...)
}

func (c *compact) text(number int, s string) {
	c.field(number, thriftBinary)
	c.bytes(s)
}

// list begins a list of n; its elements follow.
func (c *compact) list(number, kind, n int) {
	c.field(number, thriftList)
	if n < 15 {
		c.b = append(c.b, byte(n)<<4|byte(kind))
		return
	}
	c.b = binary.AppendUvarint(append(c.b, 0xf0|byte(kind)), uint64(n))
}

// element is a structure in a list.
func (c *compact) element(fill func(*compact)) {
	inner := compact{b: c.b}
	fill(&inner)
	inner.stop()
	c.b = inner.b
}

func (c *compact) structure(number int, fill func(*compact)) {
	c.field(number, thriftStruct)
	c.element(fill)
}

func (c *compact) stop() { c.b = append(c.b, 0) }
