// Package waterfall makes rows for people to look at from raw samples: levelling
// over the grazing angle, and the tone curve. The bottom track is the desk's
// (sim/survey).
//
// Rows are in slant range, sample 0 nearest the fish. An amplitude is in
// recorder counts; a levelled amplitude is over what an ordinary floor returns
// at that angle, so one is ordinary, well above is a strong echo, near zero is
// shadow or water. Nothing here knows the sea floor.
//
// Sub-package: picture (the waterfall drawn, with its edges lettered).
package waterfall
