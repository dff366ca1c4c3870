// Package sim is one running exercise: a [Session] flies a passage in fixed ticks,
// sends pings from it and hands what was observed to the surveyor's desk.
//
// Time is in seconds since the start of the exercise, in ticks of [Tick]. Frames
// are those of the rooms below: the local grid in metres, grid bearings in radians.
//
// A session is its exercise and its orders: the same exercise, seeds and orders
// give the same bytes, whatever the number of cores and however the ticks are
// grouped. Whoever wants to know of its pings, lines, orders, mishaps and hints
// adds an [Observer]. Truth never reaches the desk; a [Witness] keeps it for the
// debrief.
//
// Inside are exercise (what a session is set up from, and what of it a trainee may
// know), order (what a person can do, and the session log), passage (vessel, tow
// and instruments without sonar), hand (who gives orders on their own), survey (the
// desk), record (pings as recorded), remake (the survey worked up again from them),
// report (what the desk draws up), coach (hints), course (exercises in an order), assess (flown as an
// assessment: sealed, and written down by the hour), mark (the rubric and its arithmetic),
// plan (lines for an area, by geometry), trial (plans flown many times),
// debrief (desk against truth), flight (a session flown to its end),
// product (the files it hands over), dataset (sets of labelled data), provenance (engine
// number and licence), and for the tests simtest and house.
package sim
