package record

import (
	"encoding/binary"
	"errors"
	"math/bits"
	"slices"
)

// errDamaged is the error of packed bytes that cannot have been written here.
var errDamaged = errors.New("record: the packed bytes are damaged")

const (
	groupSamples = 64
	groupWords   = groupSamples / lanes // of 64 bits
	lanes        = 4                    // samples in a word
	laneBits     = 16
	everyLane    = 0x0001_0001_0001_0001
)

// longestRow bounds what damaged bytes can make us allocate, samples.
const longestRow = 1 << 20

// appendRow packs one row of samples: how many there are, and then group by group
// of 64 the number of bits that the largest takes, and every sample in so many.
//
// Speckle leaves little to squeeze: the low bits of neighbouring samples have
// nothing to do with each other. What can be had are the high bits that a stretch
// of the record does not use, and those this takes for a fraction of the price of a
// general compressor (the commit that added it has the figures).
//
// Four samples lie side by side in a word of 64 bits, and four by four they are
// shifted into place at once: a lane of the output holds samples 4i+lane in order,
// the first in the lowest bits. A last group that is not full is filled up with
// nothing.
func appendRow(dst []byte, row []uint16) []byte {
	dst = binary.AppendUvarint(dst, uint64(len(row)))
	var last [groupSamples]uint16
	for len(row) > 0 {
		var group *[groupSamples]uint16
		if len(row) >= groupSamples {
			group, row = (*[groupSamples]uint16)(row), row[groupSamples:]
		} else {
			copy(last[:], row)
			group, row = &last, nil
		}
		dst = appendGroup(dst, group)
	}
	return dst
}

func appendGroup(dst []byte, group *[groupSamples]uint16) []byte {
	var words [groupWords]uint64
	all := uint64(0)
	for i := range words {
		s := group[lanes*i : lanes*i+lanes : lanes*i+lanes]
		w := uint64(s[0]) | uint64(s[1])<<16 | uint64(s[2])<<32 | uint64(s[3])<<48
		words[i] = w
		all |= w
	}
	all |= all >> 32
	width := bits.Len16(uint16(all | all>>16))
	at := len(dst) + 1
	dst = slices.Grow(dst, 1+8*width)[:at+8*width]
	dst[at-1] = byte(width)
	packed, fill := uint64(0), 0
	for _, w := range words {
		packed |= w << (fill & 15) & shifted[fill&15]
		if fill += width; fill >= laneBits {
			binary.LittleEndian.PutUint64(dst[at:], packed)
			at += 8
			fill -= laneBits
			packed = w >> ((width - fill) & 31) &^ shifted[fill&15]
		}
	}
	return dst
}

// shifted is a word with the lowest bits of each lane empty, by their number.
var shifted = func() (words [laneBits]uint64) {
	for n := range words {
		words[n] = everyLane * (0xffff << n & 0xffff)
	}
	return words
}()

// readRow unpacks a row into row's memory and returns what follows it.
func readRow(src []byte, row []uint16) ([]uint16, []byte, error) {
	n, size := binary.Uvarint(src)
	if size <= 0 || n > longestRow || n > uint64(len(src))*groupSamples {
		return row[:0], nil, errDamaged
	}
	src = src[size:]
	whole := (int(n) + groupSamples - 1) / groupSamples * groupSamples
	if cap(row) < whole {
		row = make([]uint16, whole)
	}
	row = row[:whole]
	for at := 0; at < whole; at += groupSamples {
		var ok bool
		if src, ok = readGroup(src, (*[groupSamples]uint16)(row[at:])); !ok {
			return row[:0], nil, errDamaged
		}
	}
	return row[:n], src, nil
}

func readGroup(src []byte, group *[groupSamples]uint16) ([]byte, bool) {
	if len(src) == 0 {
		return nil, false
	}
	width := int(src[0])
	if src = src[1:]; width > laneBits || len(src) < 8*width {
		return nil, false
	}
	packed, left := uint64(0), 0 // bits of each lane not yet used
	used := uint64(everyLane * (1<<width - 1))
	for i := range groupWords {
		w := packed
		if left < width {
			packed = binary.LittleEndian.Uint64(src)
			src = src[8:]
			w |= packed << left & (everyLane * (0xffff << left & 0xffff))
			packed = packed >> (width - left) & (everyLane * (0xffff >> (width - left)))
			left += laneBits - width
		} else {
			packed = packed >> width & (everyLane * (0xffff >> width))
			left -= width
		}
		w &= used
		s := group[lanes*i : lanes*i+lanes : lanes*i+lanes]
		s[0], s[1], s[2], s[3] = uint16(w), uint16(w>>16), uint16(w>>32), uint16(w>>48)
	}
	return src, true
}
