// Package mosaic is the georeferenced picture: swaths laid on the ground by
// where the desk believes the fish was.
//
// Frame: local grid metres. Cell (i, j) covers [i, i+1) x [j, j+1) cells east
// and north of the grid's origin. Values are levelled amplitudes (one is an
// ordinary echo, see package waterfall).
//
// A look is what one line saw of a cell: the mean of every sample that line
// laid there. Looks are combined when the line ends. Nothing here knows the
// sea floor; the picture is as wrong as the navigation.
//
// Sub-package: geotiff (the picture as a file).
package mosaic
