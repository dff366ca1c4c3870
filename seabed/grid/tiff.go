package grid

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Tags of TIFF 6.0 (1992), of its Technical Note 3 (floating point predictor) and of
// OGC GeoTIFF 1.1 (19-008r4), with two of GDAL's.
const (
	tagWidth           = 256
	tagHeight          = 257
	tagBitsPerSample   = 258
	tagCompression     = 259
	tagStripOffsets    = 273
	tagSamplesPerPixel = 277
	tagRowsPerStrip    = 278
	tagStripByteCounts = 279
	tagPlanar          = 284
	tagPredictor       = 317
	tagTileWidth       = 322
	tagTileLength      = 323
	tagTileOffsets     = 324
	tagTileByteCounts  = 325
	tagSampleFormat    = 339
	tagPixelScale      = 33550
	tagTiepoint        = 33922
	tagTransformation  = 34264
	tagGeoKeys         = 34735
	tagMetadata        = 42112
	tagNoData          = 42113
)

// tiff is a TIFF file's first directory. Values stay where they lie in the file, so
// that no count in it takes memory.
type tiff struct {
	data   []byte
	order  binary.ByteOrder
	fields map[uint16]entry
}

type entry struct {
	kind  uint16
	count uint64
	value []byte
}

var errCut = errors.New("it is cut short")

// sizes are those of the field types, by number; 0 is a type that is passed over.
var sizes = [19]uint64{1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8, 13: 4, 16: 8, 17: 8, 18: 8}

func openTIFF(data []byte) (*tiff, error) {
	t := &tiff{data: data, order: binary.LittleEndian, fields: map[uint16]entry{}}
	if data[0] == 'M' {
		t.order = binary.BigEndian
	}
	if len(data) < 16 {
		return nil, errCut
	}
	var at, n, step, width uint64
	switch t.order.Uint16(data[2:]) {
	case 42:
		at = uint64(t.order.Uint32(data[4:]))
		head, ok := t.slice(at, 2)
		if !ok {
			return nil, errCut
		}
		n, at, step, width = uint64(t.order.Uint16(head)), at+2, 12, 4
	case 43: // BigTIFF
		at = t.order.Uint64(data[8:])
		head, ok := t.slice(at, 8)
		if !ok {
			return nil, errCut
		}
		n, at, step, width = t.order.Uint64(head), at+8, 20, 8
	default:
		return nil, errors.New("it is no TIFF file")
	}
	if n > 4096 {
		return nil, fmt.Errorf("its directory claims %d entries", n)
	}
	directory, ok := t.slice(at, n*step)
	if !ok {
		return nil, errCut
	}
	for ; len(directory) > 0; directory = directory[step:] {
		e := entry{kind: t.order.Uint16(directory[2:])}
		if width == 4 {
			e.count, e.value = uint64(t.order.Uint32(directory[4:])), directory[8:12]
		} else {
			e.count, e.value = t.order.Uint64(directory[4:]), directory[12:20]
		}
		if int(e.kind) >= len(sizes) || sizes[e.kind] == 0 || e.count > uint64(len(data)) {
			continue
		}
		size := e.count * sizes[e.kind]
		if size > width {
			where := uint64(0)
			if width == 4 {
				where = uint64(t.order.Uint32(e.value))
			} else {
				where = t.order.Uint64(e.value)
			}
			if e.value, ok = t.slice(where, size); !ok {
				continue // a tag that matters is missed where it is asked for
			}
		}
		e.value = e.value[:size]
		t.fields[t.order.Uint16(directory)] = e
	}
	return t, nil
}

// slice is a part of the file, and whether it is there.
func (t *tiff) slice(at, size uint64) ([]byte, bool) {
	if at > uint64(len(t.data)) || size > uint64(len(t.data))-at {
		return nil, false
	}
	return t.data[at : at+size], true
}

// whole is the k-th value of a field of whole numbers, or what stands in for it.
func (t *tiff) whole(tag uint16, k int, absent uint64) uint64 {
	e, ok := t.fields[tag]
	if !ok || uint64(k) >= e.count {
		return absent
	}
	switch e.kind {
	case 1:
		return uint64(e.value[k])
	case 3:
		return uint64(t.order.Uint16(e.value[2*k:]))
	case 4, 13:
		return uint64(t.order.Uint32(e.value[4*k:]))
	case 16, 18:
		return t.order.Uint64(e.value[8*k:])
	}
	return absent
}

func (t *tiff) count(tag uint16) int { return int(t.fields[tag].count) }

// double is the k-th value of a field of doubles, NaN if it is not there.
func (t *tiff) double(tag uint16, k int) float64 {
	e, ok := t.fields[tag]
	if !ok || e.kind != 12 || uint64(k) >= e.count {
		return math.NaN()
	}
	return math.Float64frombits(t.order.Uint64(e.value[8*k:]))
}

func (t *tiff) text(tag uint16) string {
	if e, ok := t.fields[tag]; ok && e.kind == 2 {
		return strings.TrimRight(string(e.value), "\x00 ")
	}
	return ""
}

// readTIFF reads the first band of a GeoTIFF.
func readTIFF(data []byte, o Options) (*Raster, error) {
	t, err := openTIFF(data)
	if err != nil {
		return nil, err
	}
	l, err := t.layout()
	if err != nil {
		return nil, err
	}
	r := &Raster{NX: l.width, NY: l.height}
	said, err := t.place(r)
	if err != nil {
		return nil, err
	}
	scale, offset := t.scale()
	missing, hasMissing := math.NaN(), false
	if text := t.text(tagNoData); text != "" {
		if missing, err = strconv.ParseFloat(strings.TrimSpace(text), 64); err != nil {
			return nil, fmt.Errorf("its value for missing cells is %.20q, want a number", text)
		}
		hasMissing = true
		if l.format == formatFloat && l.bits == 32 {
			missing = float64(float32(missing))
		}
	}
	r.Z = make([]float32, l.width*l.height)
	for i := range r.Z {
		r.Z[i] = nan32
	}
	err = t.eachRow(l, func(x, y, n int, value func(i int) float64) {
		row := r.Z[r.at(x, l.height-1-y):]
		for i := range n {
			v := value(i)
			if hasMissing && v == missing || math.IsInf(v, 0) {
				v = math.NaN()
			}
			row[i] = float32(v*scale + offset)
		}
	})
	if err != nil {
		return nil, err
	}
	return r, r.finish(o, said)
}

var nan32 = float32(math.NaN())
