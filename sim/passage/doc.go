// Package passage flies an exercise's vessel with her tow and instruments, with
// no sonar at all: weather, hull, cable and fish, the instruments with their
// errors, the helm, and the desk's reckoning of where the fish is. A [Session]
// of package sim sends pings from it; trials and streams fly it alone.
//
// A [Passage] goes in fixed ticks of [Tick]. The same exercise, seeds and orders
// give the same passage, bit for bit on one platform, however its ticks are
// grouped, so that any moment of it is reached again by flying to it: 12 us a
// tick, a second for eighty minutes.
//
// Frames are those of the rooms below: the local grid in metres, grid bearings in
// radians, heights over the mean level of the water, seconds since the start.
package passage
