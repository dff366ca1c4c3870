// Package exercise holds what a session is set up from: an [Exercise] with all
// that is true of it, and its [Brief], which is what a trainee may know. The
// desk, the coach and the window get the brief; the engine, the debrief and an
// instructor the exercise.
//
// Units are the engine's: metres, seconds, radians, m/s, on the local grid with
// east and north from the world's south-west corner, grid bearings.
package exercise
