// Package placing puts objects on a sea floor by chance: what is found where is
// drawn from bounds and distributions that are stated, and from a seed of its own.
// Exercises name such bounds instead of places, plans are tried on many draws, and
// data sets are made from them.
//
// Frame and units are those of seabed: the local grid in metres, grid bearings in
// radians.
//
// Each cause of chance of each object has a stream of its own (how many there are,
// the kind, every measure, the heading, burial, scour, the place), from which it
// takes the same number of draws whatever its distribution: changing one
// distribution moves nothing else, as far as there is room.
//
// What lies there stays clear of everything else by its radius, which is that of
// the circle round its length and width. Loose wreckage and lines may lie beyond
// it, as [seabed.Kind] says.
package placing
