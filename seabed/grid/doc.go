// Package grid reads measured depths, from GeoTIFF, ESRI ASCII grids, XYZ and CSV, and
// gives the height of the floor between them.
//
// A [Raster] is a file as it stands: cells in the file's own coordinates, from the
// west and from the south, heights in metres, up, NaN where the file has none. A [Grid]
// is a raster laid under a world: local metres, holes filled in and marked. Neither
// opens a file: bytes come in.
//
// Files come from strangers. What a header claims takes no memory before the bytes
// that bear it out are there.
package grid
