package record

import (
	"hash/crc32"
	"io"
	"sort"
)

// stream is entries packed one after another, in ascending order of a key, and cut
// into blocks. Each block begins afresh, so that any can be unpacked by itself.
type stream struct {
	blocks []block
	open   []byte // the block being filled
	next   block  // its entry in the index, as far as it is known
	words  flat   // the entry in hand
	before flat   // the one last packed into the block
	missed uint64 // key of the first entry that was not kept, if short
	last   uint64 // key of the last entry there was
	any    bool   // there was one
	short  bool   // some were not kept
}

// block is where a stretch of a stream lies in the backing.
type block struct {
	at    int64
	size  int
	sum   uint32 // CRC-32C of its bytes
	first uint64 // key of its first entry
	count int    // entries in it
}

// blockSize is how long a block grows before it is written, bytes: long enough to
// be written in one go, short enough to be unpacked for the sake of one ping.
const blockSize = 128 << 10

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// add packs the numbers of an entry, in st.words, into the open block.
func (st *stream) add(key uint64) {
	if st.next.count == 0 {
		st.next.first = key
		st.before = append(st.before[:0], make(flat, len(st.words))...)
	}
	st.next.count++
	st.open = st.words.appendChanges(st.open, st.before)
	copy(st.before, st.words)
}

// write puts the open block into the backing, at its end.
func (st *stream) write(w io.Writer, at int64) error {
	if _, err := w.Write(st.open); err != nil {
		return err
	}
	b := st.next
	b.at, b.size, b.sum = at, len(st.open), crc32.Checksum(st.open, castagnoli)
	st.blocks = append(st.blocks, b)
	st.open, st.next = st.open[:0], block{}
	return nil
}

// cut is a stream as it is at a moment: blocks may be added to it, and the open one
// filled further, without it being touched.
type cut struct {
	blocks []block
	open   []byte
	next   block
	err    error // what there is to say at its end
}

// cut returns the stream's part between two keys, both included.
func (st *stream) cut(from, to uint64, why error) cut {
	at := func(key uint64) int { // of the last block that begins at a key or before it
		return sort.Search(len(st.blocks), func(i int) bool { return st.blocks[i].first > key }) - 1
	}
	if to < from {
		return cut{}
	}
	c := cut{blocks: st.blocks[max(at(from), 0):max(at(to)+1, 0)]}
	if st.next.count > 0 && st.next.first <= to {
		c.open, c.next = append(c.open, st.open...), st.next
	}
	if st.short && from <= st.last && to >= st.missed {
		c.err = why
	}
	return c
}

// each calls f with the packed bytes of every block, and how many entries they
// hold, while it asks for more. The bytes are good until it returns.
func (c *cut) each(r io.ReaderAt, f func(packed []byte, count int) (more bool, err error)) error {
	var buffer []byte
	for _, b := range c.blocks {
		if cap(buffer) < b.size {
			buffer = make([]byte, b.size)
		}
		buffer = buffer[:b.size]
		if _, err := r.ReadAt(buffer, b.at); err != nil && err != io.EOF {
			return err
		}
		if crc32.Checksum(buffer, castagnoli) != b.sum {
			return errDamaged
		}
		if more, err := f(buffer, b.count); err != nil || !more {
			return err
		}
	}
	if c.next.count > 0 {
		if more, err := f(c.open, c.next.count); err != nil || !more {
			return err
		}
	}
	return c.err
}
