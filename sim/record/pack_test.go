package record

import (
	"bytes"
	"encoding/binary"
	"math/bits"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// rows draws rows as a recorder writes them and as it does not: silence, speckle
// about any level, full scale.
func rows() *rapid.Generator[[]uint16] {
	return rapid.Custom(func(t *rapid.T) []uint16 {
		n := rapid.IntRange(0, 300).Draw(t, "samples")
		row := make([]uint16, n)
		for i := 0; i < n; {
			most := rapid.SampledFrom([]uint16{0, 1, 2, 3, 15, 255, 256, 4095, 40000, 65535}).Draw(t, "most")
			for stretch := rapid.IntRange(1, 100).Draw(t, "stretch"); stretch > 0 && i < n; stretch-- {
				row[i] = rapid.Uint16Range(0, most).Draw(t, "sample")
				i++
			}
		}
		return row
	})
}

func TestRowsComeBackAsTheyWere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		row := rows().Draw(t, "row")
		before := rapid.SliceOf(rapid.Byte()).Draw(t, "before")
		packed := appendRow(slices.Clone(before), row)
		if !bytes.HasPrefix(packed, before) {
			t.Fatal("what stood before the row was changed")
		}
		got, rest, err := readRow(append(packed[len(before):], 1, 2, 3), nil)
		if err != nil || !slices.Equal(got, row) || !bytes.Equal(rest, []byte{1, 2, 3}) {
			t.Fatalf("got %v, %v, %v; want %v", got, rest, err, row)
		}
	})
}

// packedPlainly is the packed form written for reading: bit by bit.
func packedPlainly(row []uint16) []byte {
	out := binary.AppendUvarint(nil, uint64(len(row)))
	for len(row) > 0 {
		var group [groupSamples]uint16
		row = row[copy(group[:], row):]
		width := bits.Len16(slices.Max(group[:]))
		packed := make([]uint16, lanes*width)
		for i, v := range group {
			for bit := range width {
				at := i/lanes*width + bit // in the lane
				packed[at/laneBits*lanes+i%lanes] |= v >> bit & 1 << (at % laneBits)
			}
		}
		out = append(out, byte(width))
		for _, p := range packed {
			out = binary.LittleEndian.AppendUint16(out, p)
		}
	}
	return out
}

func TestPackedFormIsThePlainOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		row := rows().Draw(t, "row")
		if got, want := appendRow(nil, row), packedPlainly(row); !bytes.Equal(got, want) {
			t.Fatalf("%v is packed as %x, want %x", row, got, want)
		}
	})
}

func TestEveryWidth(t *testing.T) {
	for width := range laneBits + 1 {
		row := make([]uint16, groupSamples)
		for i := range row {
			row[i] = uint16(uint32(0x9e3779b1)*uint32(i+1)>>16) & uint16(1<<width-1)
		}
		row[5] = uint16(1<<width - 1)
		packed := appendRow(nil, row)
		if want := 1 + 1 + 8*width; len(packed) != want {
			t.Errorf("width %d takes %d bytes, want %d", width, len(packed), want)
		}
		if got, _, err := readRow(packed, nil); err != nil || !slices.Equal(got, row) {
			t.Errorf("width %d: %v, %v; want %v", width, got, err, row)
		}
	}
}
