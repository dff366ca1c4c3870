// Package geodesy carries positions between latitude and longitude, the UTM
// grid and the engine's local grid, and bearings between grid and true north. A
// [Track] is a survey line on the local grid.
//
// Three frames appear here:
//
//	geographic  LatLon, WGS84 latitude φ and longitude λ, radians, north and east positive
//	UTM         easting E and northing N, metres, in one zone of one hemisphere
//	local       x east and y north, metres, the engine's frame
//
// The local frame is UTM with its origin moved and nothing else: its y axis is
// grid north, its metres are grid metres. So the two things that separate a
// grid from the ground stay visible and are never forgotten:
//
//	γ  convergence, radians: the true bearing of grid north. East of the
//	   central meridian it is positive in the northern hemisphere and negative
//	   in the southern.  true = grid + γ
//	k  point scale: grid length = k · ground length, 0.9996 on the central
//	   meridian
//
// The engine applies γ wherever a compass or a gyro meets the grid. It leaves
// out k: a length in the local frame is taken as a length on the ground, which
// is wrong by at most about 1 part in 1000 at the edge of a zone and 1 in 2500
// on the central meridian.
//
// Bearings are radians clockwise from north and have their own types, because
// a grid bearing used as a true one looks right and is not: in the English
// Channel the two differ by more than a degree.
package geodesy
