// Package calibrate works out from objects that were seen on several passes what the
// layback is wrong by, and how well a system places an object.
//
// Frame: grid metres, x east and y north; courses are grid bearings, radians. Along is
// the way a pass was run, across to its right. Nothing here knows where an object
// truly lies.
package calibrate
