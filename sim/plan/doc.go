// Package plan lays survey lines over an area or along a route and says what holds of
// them: lines, turns, time, predicted looks, and at every place whether gear and water
// allow it. Geometry only: no passage is flown, no ping made, no file opened.
//
// Frame: local grid, metres, x east and y north; bearings are grid bearings in radians;
// depths are positive, below the still water unless low water is said. Speeds are over
// the ground, m/s.
//
// A [Spec] goes in, a [Plan] comes out of [Make]; [Improve] makes many and keeps those
// that nothing beats. Lines run straight; turns are the very paths that the autopilot steers
// ([vessel.PlanTurn]), and the fish follows by a pursuit curve on a cable of steady
// length. Left out: waves, gusts, how the helm overshoots, the cable's swing in a turn.
//
// Sub-packages: areas (areas, routes and keep-outs from GeoJSON), sheet (a plan written down: page,
// figures, lines).
//
// Planning aid; never evidence of clearance.
package plan
