// Package tiles cuts the waterfalls of a survey into pictures with annotations of what lies
// there: for every line, channel and side a tile of [Rows] pings, row 0 the first of them,
// in two geometries. In slant range a column is as many samples as are one pixel; in ground
// range it is a stretch of flat floor below the fish by the desk's bottom track, as
// somebody would correct it who knows no better.
//
// A tile is written twice: as recorded, 16 bits, the mean of a pixel's counts; and in 8
// bits, 255 log10(max(c,1))/log10(65535). Range increases to the right on starboard and to
// the left on port, as on a waterfall, and no tile is mirrored: a shadow always falls away
// from the track. Turned that way round by hand a record is one that no sonar writes.
//
// Masks come of the labels: an object's echo is what shows it (object or layover); its
// shadow the samples in shadow that follow it in the same ping, as long as the floor hidden
// lies below the ray over the object's highest sample there.
package tiles
