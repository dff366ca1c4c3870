// Package sim is the clock and the world: a [Session] advances vessel, tow,
// instruments and sonar in fixed ticks and hands what they observed to the
// surveyor's desk.
//
// Time is in seconds since the start of the exercise, in ticks of [Tick].
// Frames are those of the rooms below: the local grid in metres, grid bearings
// in radians.
//
// A session is its [Exercise] plus its command log: the same exercise, seed
// and commands give the same bytes, whatever the number of cores and however
// the ticks are grouped. Truth never reaches the desk; it is kept beside it
// for the debrief.
//
// Sub-packages: chance (named random streams), survey (the desk), debrief
// (desk against truth).
package sim
