// Package seabed holds the true sea floor: relief, bedforms, sediments and
// the objects on it.
//
// Frame: the local grid, x east and y north in metres from the south-west
// corner of the world, z up with z = 0 at the still water level, so the floor
// has negative z. Bearings are grid bearings in radians, clockwise from north.
//
// The floor is needed over kilometres and under a beam of centimetres, so it
// is split by wavelength:
//
//   - relief, bedforms and roughness longer than a metre or two are built lazily
//     into tiles of 32 m with a node every 0.25 m, and read by C1 (Catmull-Rom)
//     cubics;
//   - micro-relief and ripples shorter than that are added at every sample: the one
//     from a quilt, which never repeats, the others from periodic profiles;
//   - objects and pipelines are solids with a height field, and raised capsules
//     (masts, wings, lines, free spans) that clear the floor; a tree of boxes
//     finds the few that a ray meets.
//
// Everything is a function of the Spec and a seed: the order in which tiles
// are built, and by which goroutine, changes nothing. At most [TileLimit]
// tiles are kept; beyond that the oldest is dropped and rebuilt on demand.
// [Spec.Memory] says what a world takes.
//
// Measured depths may stand for the relief; what is shorter than two of their cells is
// added to them as to any relief, so that there is one spectrum and no repeat.
//
// Sub-packages: grid (depths read from files), placing (objects put on the floor by chance), transport (what flowing
// water does to grains), lanes (the floor along a ray, sixteen samples at a time) and, the ground floor that every room may stand on, chance
// (named random streams) and units (what people say for metres and seconds).
package seabed

// Point is a place on the local grid, metres.
type Point struct{ X, Y float64 }
