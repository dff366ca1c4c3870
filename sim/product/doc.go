// Package product writes what a survey hands over: a folder with the mosaic,
// the waterfalls, the track, the contacts, the debrief and the session log.
//
// The files go to a [Sink], such as a [folder.Folder], which is found whole or
// not at all; the last is the list of the others. Every file is a function of
// the session alone: the same exercise, seed and commands give the same bytes.
// Each says which engine, exercise and seed it comes from.
//
// Positions are by the desk, projected to UTM or latitude and longitude;
// times are UTC from the exercise's own start.
package product
