package geotiff

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// ghost is the block GDAL's COG driver documents between the header and the
// first directory. It promises where things lie: directories first, tiles row
// by row, each led by its size in four bytes and trailed by a repetition of its
// last four. The size counts what follows the first line; the space at the end
// lets an editor turn NO into YES in place.
const ghost = "GDAL_STRUCTURAL_METADATA_SIZE=000140 bytes\n" +
	"LAYOUT=IFDS_BEFORE_DATA\n" +
	"BLOCK_ORDER=ROW_MAJOR\n" +
	"BLOCK_LEADER=SIZE_AS_UINT4\n" +
	"BLOCK_TRAILER=LAST_4_BYTES_REPEATED\n" +
	"KNOWN_INCOMPATIBLE_EDITION=NO\n "

// marker is the length of a tile's leader and of its trailer.
const marker = 4

// Write writes the raster as a Cloud Optimized GeoTIFF. It needs memory for the
// overviews, a third of the raster, and for the compressed file, because the
// directories at its start give the place of every tile.
func Write[T Sample](w io.Writer, r Raster[T]) error {
	if err := r.check(); err != nil {
		return fmt.Errorf("geotiff: %w", err)
	}
	c, err := newCOG(&r)
	if err != nil {
		return fmt.Errorf("geotiff: %w", err)
	}
	if err := c.write(w, format{big: c.size(format{}) > math.MaxUint32}); err != nil {
		return fmt.Errorf("geotiff: %w", err)
	}
	return nil
}

// cog is a file ready to be laid out.
type cog struct {
	pictures []picture // full image first
	sample   []field   // fields of every directory that describe a value
	geo      []field   // fields of the full image only
	noData   []field   // at most one
}

func newCOG[T Sample](r *Raster[T]) (*cog, error) {
	c := &cog{}
	for _, l := range pyramid(r) {
		p, err := compress(l, r.noData(), r.Sparse)
		if err != nil {
			return nil, err
		}
		c.pictures = append(c.pictures, p)
	}

	bits, numbers := uint16(32), uint16(3) // IEEE floating point
	switch any(r.Pix).(type) {
	case []uint8:
		bits, numbers = 8, 1 // unsigned
	case []uint16:
		bits, numbers = 16, 1
	}
	c.sample = []field{
		shorts(tagBitsPerSample, bits),
		shorts(tagCompression, 8), // zlib
		shorts(tagPhotometric, 1), // black is zero
		shorts(tagSamplesPerPixel, 1),
		shorts(tagPlanar, 1),
		shorts(tagTileWidth, tileSide),
		shorts(tagTileLength, tileSide),
		shorts(tagSampleFormat, numbers),
	}
	if r.NoData != nil {
		s := strconv.FormatFloat(float64(*r.NoData), 'g', -1, 64)
		c.noData = []field{text(tagNoData, strings.ToLower(s))}
	}
	c.geo = append(c.geo,
		doubles(tagPixelScale, r.PixelSize, r.PixelSize, 0),
		doubles(tagTiepoint, 0, 0, 0, r.OriginEasting, r.OriginNorthing, 0),
		shorts(tagGeoKeys,
			1, 1, 1, 3, // directory version 1, revision 1.1, three keys
			1024, 0, 1, 1, // GTModelType: projected
			1025, 0, 1, 1, // GTRasterType: pixel is area
			3072, 0, 1, uint16(r.EPSG), // ProjectedCRS
		),
	)
	if r.Description != "" {
		c.geo = append(c.geo, text(tagDescription, r.Description))
	}
	if r.Software != "" {
		c.geo = append(c.geo, text(tagSoftware, r.Software))
	}
	if r.Copyright != "" {
		c.geo = append(c.geo, text(tagCopyright, r.Copyright))
	}
	if m := r.metadata(); m != "" {
		c.geo = append(c.geo, text(tagMetadata, m))
	}
	if !r.Time.IsZero() {
		c.geo = append(c.geo, text(tagDateTime, r.Time.UTC().Format("2006:01:02 15:04:05")))
	}
	return c, nil
}

// head returns everything before the first tile, with the tiles starting at an
// offset. Its length does not depend on that offset.
func (c *cog) head(f format, data uint64) []byte {
	offsets := c.offsets(data)
	b := f.appendHeader(nil)
	for i, p := range c.pictures {
		sizes := make([]uint64, len(p.tiles))
		for j, tile := range p.tiles {
			sizes[j] = uint64(len(tile))
		}
		fields := []field{
			longs(tagWidth, uint32(p.width)),
			longs(tagHeight, uint32(p.height)),
			f.positions(tagTileOffsets, offsets[i]),
			f.positions(tagTileByteCounts, sizes),
		}
		fields = append(fields, c.sample...)
		fields = append(fields, c.noData...)
		if i == 0 {
			fields = append(fields, c.geo...)
		} else {
			fields = append(fields, longs(tagSubfileType, 1)) // reduced resolution
		}
		slices.SortFunc(fields, func(a, b field) int { return int(a.tag) - int(b.tag) })
		b = f.appendDirectory(b, fields, i == len(c.pictures)-1)
	}
	return b
}

// offsets returns the place of every tile of every picture when the first one
// written, of the smallest picture, has its leader at data. A tile left out is
// at 0.
func (c *cog) offsets(data uint64) [][]uint64 {
	out := make([][]uint64, len(c.pictures))
	for i, p := range slices.Backward(c.pictures) {
		out[i] = make([]uint64, len(p.tiles))
		for j, tile := range p.tiles {
			if tile != nil {
				out[i][j] = data + marker
				data += marker + uint64(len(tile)) + marker
			}
		}
	}
	return out
}

// size returns the length of the file.
func (c *cog) size(f format) uint64 {
	n := uint64(len(c.head(f, 0)))
	for _, p := range c.pictures {
		for _, tile := range p.tiles {
			if tile != nil {
				n += marker + uint64(len(tile)) + marker
			}
		}
	}
	return n
}

func (c *cog) write(w io.Writer, f format) error {
	head := c.head(f, uint64(len(c.head(f, 0))))
	if _, err := w.Write(head); err != nil {
		return err
	}
	var block []byte
	for _, p := range slices.Backward(c.pictures) {
		for _, tile := range p.tiles {
			if tile == nil {
				continue
			}
			block = le.AppendUint32(block[:0], uint32(len(tile)))
			block = append(block, tile...)
			block = append(block, tile[len(tile)-marker:]...)
			if _, err := w.Write(block); err != nil {
				return err
			}
		}
	}
	return nil
}
