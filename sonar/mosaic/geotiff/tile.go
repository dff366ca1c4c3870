package geotiff

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
)

const (
	tileSide = 256 // pixels

	// compression is a fixed zlib level, so that the bytes do not follow a
	// changing default.
	compression = 6
)

// picture is one level as it goes into the file: compressed tiles row by row
// from the north-west corner. A nil tile is left out of the file.
type picture struct {
	width, height int
	tiles         [][]byte
}

// compress cuts a level into compressed tiles.
func compress[T Sample](src level[T], gap noData[T], sparse bool) (picture, error) {
	dst := picture{width: src.width, height: src.height}
	var (
		packed bytes.Buffer
		fill   = make([]T, tileSide*tileSide)
		block  = make([]T, tileSide*tileSide)
		raw    = make([]byte, binary.Size(block))
	)
	for i := range fill {
		fill[i] = gap.value
	}
	deflate, err := zlib.NewWriterLevel(&packed, compression)
	if err != nil {
		return picture{}, err
	}
	for y := 0; y < src.height; y += tileSide {
		for x := 0; x < src.width; x += tileSide {
			copy(block, fill)
			if empty := cut(block, src, x, y, gap); empty && sparse {
				dst.tiles = append(dst.tiles, nil)
				continue
			}
			if _, err := binary.Encode(raw, binary.LittleEndian, block); err != nil {
				return picture{}, err
			}
			packed.Reset()
			deflate.Reset(&packed)
			if _, err := deflate.Write(raw); err != nil {
				return picture{}, err
			}
			if err := deflate.Close(); err != nil {
				return picture{}, err
			}
			dst.tiles = append(dst.tiles, bytes.Clone(packed.Bytes()))
		}
	}
	return dst, nil
}

// cut copies the part of src that lies in the tile at column x and row y into
// the upper-left of block, and reports whether no pixel of it was seen.
func cut[T Sample](block []T, src level[T], x, y int, gap noData[T]) (empty bool) {
	empty = true
	width, height := min(tileSide, src.width-x), min(tileSide, src.height-y)
	for i := range height {
		row := src.pix[(y+i)*src.width+x:][:width]
		copy(block[i*tileSide:], row)
		for _, v := range row {
			if !empty {
				break
			}
			empty = gap.missing(v)
		}
	}
	return empty
}
