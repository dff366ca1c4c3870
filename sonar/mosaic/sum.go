package mosaic

import (
	"cmp"
	"encoding/binary"
	"io"
	"slices"
)

// Sum writes the finished looks of every cell in a fixed order, for a digest of
// the mosaic. What the line being painted has laid so far is not in it.
func (m *Mosaic) Sum(w io.Writer) {
	keys := make([]tileKey, 0, len(m.done))
	for key := range m.done {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b tileKey) int { return cmp.Or(cmp.Compare(a.j, b.j), cmp.Compare(a.i, b.i)) })
	const record = 5 // bytes a cell
	buffer := make([]byte, 0, 8+tileCells*tileCells*record)
	for _, key := range keys {
		buffer = binary.LittleEndian.AppendUint32(buffer[:0], uint32(key.i))
		buffer = binary.LittleEndian.AppendUint32(buffer, uint32(key.j))
		for _, c := range m.done[key] {
			buffer = binary.LittleEndian.AppendUint16(buffer, c.value)
			buffer = binary.LittleEndian.AppendUint16(buffer, c.weight)
			buffer = append(buffer, c.looks)
		}
		w.Write(buffer)
	}
}
