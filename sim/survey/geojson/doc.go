// Package geojson writes survey results (track lines, contacts, areas) as
// GeoJSON, RFC 7946, for any map program to open.
//
// Coordinates are WGS84 longitude and latitude in degrees, in that order, the
// only reference system the RFC knows (section 4); grid coordinates must be
// converted first. They are written to 8 decimals, about 1 mm, so that the same
// results give the same bytes and text never shows the last bits of a
// conversion.
//
// The writer refuses what a reader could misunderstand, and puts right what has
// one meaning only: rings are closed, and wound as section 3.1.6 asks.
//
// Left out: the third coordinate, since it is a height above the ellipsoid and
// not a depth (put depths in the properties); the multi-part geometries and
// GeometryCollection; cutting of shapes at the antimeridian (section 3.1.9),
// where a shape that crosses it is an error; a check that rings do not cross
// themselves or each other.
package geojson
