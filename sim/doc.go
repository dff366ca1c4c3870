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
// for the debrief. [Bridge] is what the crew sees of the vessel beside the
// instruments, [Scene] the truth of the moment for an instructor, [Log] the
// commands as written down; a mate runs the plan by himself.
//
// Sub-packages: survey (the desk), record (pings as recorded), coach (hints while
// an exercise runs), debrief (desk against truth), product (the folder a survey
// hands over) and house (tests that keep the rooms in order).
package sim
