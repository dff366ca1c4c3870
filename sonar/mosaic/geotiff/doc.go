// Package geotiff writes a single-band raster on a projected grid as a Cloud
// Optimized GeoTIFF, the form a mosaic leaves the desk in.
//
// Frame and units: rows run from north to south and columns from west to east;
// the origin is the upper-left outer corner of the first pixel, as easting and
// northing in metres of the projected reference system; pixels are square, in
// metres, and each value stands for the area of its pixel.
//
// The layout follows
//
//   - TIFF 6.0, with BigTIFF where the file passes 4 GiB;
//   - OGC GeoTIFF 1.1 (OGC 19-008r4) for the reference system and the corner;
//   - OGC Cloud Optimized GeoTIFF 1.0 (OGC 21-026): tiles of 256 pixels,
//     overviews halving down to one tile, all directories first, then the tiles
//     from the smallest overview to the full image;
//   - the header block and the size markers round each tile that GDAL documents
//     for its COG driver, which let a reader fetch a tile in one request;
//   - the GDAL no-data tag 42113, which is not part of any standard but is what
//     readers look for.
//
// The same raster gives the same bytes with one release of Go: nothing is read
// from the clock, and the compression level is fixed. Left out: more than one
// band, colour tables, rotated or non-square pixels, geographic reference
// systems and vertical ones.
package geotiff
