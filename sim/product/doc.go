// Package product writes what a survey hands over: a folder with the mosaic,
// the waterfalls, the track, the contacts, the debrief and the session log.
//
// The folder is made under a temporary name beside its place and renamed when
// it is whole, so nothing half-written is ever found under the final name.
// Every file is a function of the session alone: the same exercise, seed and
// commands give the same bytes.
//
// Positions are by the desk, projected to UTM or latitude and longitude;
// times are UTC from the exercise's own start.
package product
