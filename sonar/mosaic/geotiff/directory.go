package geotiff

import (
	"encoding/binary"
	"math"
)

// TIFF tags in use, TIFF 6.0 section 8 and OGC GeoTIFF 1.1 section 7.1.
const (
	tagSubfileType     = 254
	tagWidth           = 256
	tagHeight          = 257
	tagBitsPerSample   = 258
	tagCompression     = 259
	tagPhotometric     = 262
	tagDescription     = 270
	tagSamplesPerPixel = 277
	tagPlanar          = 284
	tagSoftware        = 305
	tagDateTime        = 306
	tagTileWidth       = 322
	tagTileLength      = 323
	tagTileOffsets     = 324
	tagTileByteCounts  = 325
	tagSampleFormat    = 339
	tagPixelScale      = 33550
	tagTiepoint        = 33922
	tagGeoKeys         = 34735
	tagCopyright       = 33432
	tagMetadata        = 42112 // GDAL
	tagNoData          = 42113 // GDAL
)

// TIFF field types.
const (
	typeASCII  = 2
	typeShort  = 3
	typeLong   = 4
	typeDouble = 12
	typeLong8  = 16 // BigTIFF
)

var le = binary.LittleEndian

// field is one entry of a directory, its values already in little-endian.
type field struct {
	tag, kind uint16
	count     int
	data      []byte
}

func shorts(tag uint16, values ...uint16) field {
	f := field{tag: tag, kind: typeShort, count: len(values)}
	for _, v := range values {
		f.data = le.AppendUint16(f.data, v)
	}
	return f
}

func longs(tag uint16, values ...uint32) field {
	f := field{tag: tag, kind: typeLong, count: len(values)}
	for _, v := range values {
		f.data = le.AppendUint32(f.data, v)
	}
	return f
}

func doubles(tag uint16, values ...float64) field {
	f := field{tag: tag, kind: typeDouble, count: len(values)}
	for _, v := range values {
		f.data = le.AppendUint64(f.data, math.Float64bits(v))
	}
	return f
}

func text(tag uint16, s string) field {
	return field{tag: tag, kind: typeASCII, count: len(s) + 1, data: append([]byte(s), 0)}
}

// format is the TIFF flavour: classic with 32-bit offsets, or BigTIFF.
type format struct {
	big bool
}

// positions is a field of file offsets or sizes.
func (f format) positions(tag uint16, values []uint64) field {
	out := field{tag: tag, kind: typeLong, count: len(values)}
	if f.big {
		out.kind = typeLong8
	}
	for _, v := range values {
		out.data = f.appendOffset(out.data, v)
	}
	return out
}

func (f format) appendOffset(dst []byte, v uint64) []byte {
	if f.big {
		return le.AppendUint64(dst, v)
	}
	return le.AppendUint32(dst, uint32(v))
}

// appendHeader appends the file header. The first directory follows the ghost
// block, so its place is known.
func (f format) appendHeader(dst []byte) []byte {
	if f.big {
		dst = append(dst, "II\x2b\x00\x08\x00\x00\x00"...)
	} else {
		dst = append(dst, "II\x2a\x00"...)
	}
	first := len(dst) + f.offsetSize() + len(ghost)
	dst = f.appendOffset(dst, uint64(aligned(first)))
	dst = append(dst, ghost...)
	return align(dst)
}

// appendDirectory appends a directory whose fields are in order of their tags,
// with the values that do not fit in it right after, all on 8-byte boundaries.
// dst must start at the start of the file.
func (f format) appendDirectory(dst []byte, fields []field, last bool) []byte {
	size := f.offsetSize()
	values := len(dst) + 2 + len(fields)*12 + 4
	if f.big {
		values = len(dst) + 8 + len(fields)*20 + 8
	}
	values = aligned(values)
	end := values
	for _, field := range fields {
		if len(field.data) > size {
			end = aligned(end + len(field.data))
		}
	}

	if f.big {
		dst = le.AppendUint64(dst, uint64(len(fields)))
	} else {
		dst = le.AppendUint16(dst, uint16(len(fields)))
	}
	at := values
	for _, field := range fields {
		dst = le.AppendUint16(dst, field.tag)
		dst = le.AppendUint16(dst, field.kind)
		dst = f.appendOffset(dst, uint64(field.count))
		if len(field.data) > size {
			dst = f.appendOffset(dst, uint64(at))
			at = aligned(at + len(field.data))
			continue
		}
		dst = append(dst, field.data...)
		dst = append(dst, make([]byte, size-len(field.data))...)
	}
	next := uint64(end)
	if last {
		next = 0
	}
	dst = align(f.appendOffset(dst, next))
	for _, field := range fields {
		if len(field.data) > size {
			dst = align(append(dst, field.data...))
		}
	}
	return dst
}

func (f format) offsetSize() int {
	if f.big {
		return 8
	}
	return 4
}

// aligned returns n rounded up to a multiple of 8. TIFF asks for 2.
func aligned(n int) int { return (n + 7) &^ 7 }

// align pads b with zeros to a multiple of 8.
func align(b []byte) []byte { return append(b, make([]byte, aligned(len(b))-len(b))...) }
