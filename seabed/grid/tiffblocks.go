package grid

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"io"
	"math"

	"golang.org/x/image/tiff/lzw"
)

// Sample formats, TIFF 6.0 section 19.
const (
	formatUnsigned = 1
	formatSigned   = 2
	formatFloat    = 3
)

// Compressions.
const (
	packNone       = 1
	packLZW        = 5
	packDeflate    = 8
	packOldDeflate = 32946
)

// layout is how the cells lie in the file.
type layout struct {
	width, height int // cells
	blockW        int
	blockH        int // rows of a block; the last strip may have fewer
	tiled         bool
	bits, format  int
	samples       int // interleaved in a block, of which the first is read
	pack          int
	predictor     int
	across, down  int // blocks
	offsets       uint16
	counts        uint16
}

// unpacks is how many bytes one packed byte can become at most: Deflate makes 1032 (RFC
// 1951: 258 bytes from two bits); a code of LZW of 12 bits at most 4096, but the table has to grow
// to it: 1366 over a whole table.
const unpacks = 1366

func (t *tiff) layout() (l layout, err error) {
	w, h := t.whole(tagWidth, 0, 0), t.whole(tagHeight, 0, 0)
	if w == 0 || h == 0 || w > most || h > most || w*h > most {
		return l, fmt.Errorf("it claims %d x %d cells, want up to %d in all", w, h, most)
	}
	l = layout{
		width: int(w), height: int(h), bits: int(t.whole(tagBitsPerSample, 0, 1)), format: int(t.whole(tagSampleFormat, 0, formatUnsigned)),
		samples: int(t.whole(tagSamplesPerPixel, 0, 1)), pack: int(t.whole(tagCompression, 0, packNone)), predictor: int(t.whole(tagPredictor, 0, 1)),
	}
	if err := l.readable(); err != nil {
		return l, err
	}
	if t.whole(tagPlanar, 0, 1) == 2 {
		l.samples = 1 // bands lie one after another: the first comes first
	}
	return l, t.blocks(&l)
}

// readable says what of the way the values are written cannot be read, or nil.
func (l *layout) readable() error {
	switch {
	case l.format == formatFloat && (l.bits == 32 || l.bits == 64):
	case (l.format == formatUnsigned || l.format == formatSigned) && (l.bits == 8 || l.bits == 16 || l.bits == 32):
	default:
		return fmt.Errorf("its values are of %d bits in format %d, want whole numbers of 8, 16 or 32 bits or floating point of 32 or 64", l.bits, l.format)
	}
	if l.samples < 1 || l.samples > 64 {
		return fmt.Errorf("it claims %d bands", l.samples)
	}
	switch l.pack {
	case packNone, packLZW, packDeflate, packOldDeflate:
	default:
		return fmt.Errorf("it is packed by method %d, want none, LZW or Deflate", l.pack)
	}
	if l.predictor < 1 || l.predictor > 3 || l.predictor == 3 && l.format != formatFloat {
		return fmt.Errorf("its predictor is %d for format %d, want 1, 2, or 3 with floating point", l.predictor, l.format)
	}
	return nil
}

// blocks fills in how the cells are cut into strips or tiles, and holds what is claimed
// against the size of the file.
func (t *tiff) blocks(l *layout) error {
	w, h := uint64(l.width), uint64(l.height)
	l.offsets, l.counts = tagStripOffsets, tagStripByteCounts
	bw, bh := w, min(t.whole(tagRowsPerStrip, 0, h), h)
	if _, l.tiled = t.fields[tagTileOffsets]; l.tiled {
		l.offsets, l.counts = tagTileOffsets, tagTileByteCounts
		bw, bh = t.whole(tagTileWidth, 0, 0), t.whole(tagTileLength, 0, 0)
	}
	if bw == 0 || bh == 0 || bw > most || bh > most || bw*bh > most {
		return fmt.Errorf("it claims blocks of %d x %d cells", bw, bh)
	}
	l.blockW, l.blockH = int(bw), int(bh)
	l.across, l.down = int((w+bw-1)/bw), int((h+bh-1)/bh)
	if n := l.across * l.down; t.count(l.offsets) < n || t.count(l.counts) < n {
		return fmt.Errorf("it lists %d blocks of %d", min(t.count(l.offsets), t.count(l.counts)), n)
	}
	bytes := uint64(1)
	if l.pack != packNone {
		bytes = unpacks
	}
	// Blocks left out hold nothing, and a file may leave out most of them; but what is
	// claimed without a byte to bear it out is bounded by the size of the file.
	if room := uint64(len(t.data))*bytes*8/uint64(l.bits) + 1<<16; w*h > room {
		return fmt.Errorf("it claims %d x %d cells, which its %d bytes do not hold", w, h, len(t.data))
	}
	return nil
}

// eachRow calls f with every stretch of cells of a row: where it begins, counted from
// the north-west, how many cells there are, and their values.
func (t *tiff) eachRow(l layout, f func(x, y, n int, value func(i int) float64)) error {
	size := l.bits / 8
	stride := l.blockW * l.samples * size
	var block []byte
	order := t.order
	for b := range l.across * l.down {
		at, packed := t.whole(l.offsets, b, 0), t.whole(l.counts, b, 0)
		if packed == 0 {
			continue // left out: nothing is known there
		}
		x, y := b%l.across*l.blockW, b/l.across*l.blockH
		rows := l.blockH
		if !l.tiled {
			rows = min(rows, l.height-y)
		}
		raw, ok := t.slice(at, packed)
		if !ok {
			return errCut
		}
		var err error
		if block, err = unpack(block[:0], raw, l.pack, rows*stride); err != nil {
			return fmt.Errorf("block %d of %d cannot be unpacked: %v", b+1, l.across*l.down, err)
		}
		for j := range min(rows, l.height-y) {
			row := block[j*stride : (j+1)*stride]
			switch l.predictor {
			case 2:
				undiff(row, l.samples, size, t.order)
			case 3:
				row = unfloat(row, l.samples, size)
				order = binary.BigEndian
			}
			f(x, y+j, min(l.blockW, l.width-x), func(i int) float64 { return sample(row[i*l.samples*size:], l, order) })
		}
	}
	return nil
}

// unpack appends the size bytes of a block to dst, which grows as they come.
func unpack(dst, raw []byte, pack, size int) ([]byte, error) {
	var from io.Reader = bytes.NewReader(raw)
	switch pack {
	case packNone:
	case packLZW:
		r := lzw.NewReader(from, lzw.MSB, 8)
		defer r.Close()
		from = r
	default:
		r, err := zlib.NewReader(from)
		if err != nil {
			return dst, err
		}
		defer r.Close()
		from = r
	}
	out := bytes.NewBuffer(dst)
	n, err := io.Copy(out, io.LimitReader(from, int64(size)))
	if n < int64(size) {
		if err == nil {
			err = io.ErrUnexpectedEOF
		}
		return out.Bytes(), err
	}
	return out.Bytes(), nil
}

// undiff takes back predictor 2: each value is the difference to that of the cell
// before, as whole numbers of its size (TIFF 6.0, section 14).
func undiff(row []byte, samples, size int, order binary.ByteOrder) {
	for i := samples * size; i+size <= len(row); i += size {
		a, b := row[i-samples*size:], row[i:]
		switch size {
		case 1:
			b[0] += a[0]
		case 2:
			order.PutUint16(b, order.Uint16(b)+order.Uint16(a))
		case 4:
			order.PutUint32(b, order.Uint32(b)+order.Uint32(a))
		case 8:
			order.PutUint64(b, order.Uint64(b)+order.Uint64(a))
		}
	}
}

// unfloat takes back predictor 3: differences of bytes, the bytes of a row sorted by
// their weight, heaviest first (Adobe Photoshop TIFF Technical Note 3, 2005).
func unfloat(row []byte, samples, size int) []byte {
	for i := samples; i < len(row); i++ {
		row[i] += row[i-samples]
	}
	n := len(row) / size
	out := make([]byte, len(row))
	for i := range n {
		for b := range size {
			out[i*size+b] = row[b*n+i]
		}
	}
	return out
}

// sample is the value at the start of bytes.
func sample(b []byte, l layout, order binary.ByteOrder) float64 {
	switch {
	case l.format == formatFloat && l.bits == 64:
		return math.Float64frombits(order.Uint64(b))
	case l.format == formatFloat:
		return float64(math.Float32frombits(order.Uint32(b)))
	case l.bits == 8 && l.format == formatSigned:
		return float64(int8(b[0]))
	case l.bits == 8:
		return float64(b[0])
	case l.bits == 16 && l.format == formatSigned:
		return float64(int16(order.Uint16(b)))
	case l.bits == 16:
		return float64(order.Uint16(b))
	case l.format == formatSigned:
		return float64(int32(order.Uint32(b)))
	}
	return float64(order.Uint32(b))
}
