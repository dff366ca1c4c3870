// Package areas reads areas, routes and what is to be kept clear of from GeoJSON (RFC
// 7946). Positions are WGS84 longitude and latitude in degrees, as the RFC has them.
//
// It is read by encoding/json alone: the geometry library that was looked at brings a
// database driver with its GeoJSON, which every build of the commands would pay for.
package areas
