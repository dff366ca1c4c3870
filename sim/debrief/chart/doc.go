// Package chart draws the overview of a survey: the mosaic with the lines as
// planned, the tracks as run, and the contacts, on a sheet with the grid and
// the positions a surveyor needs to find the place again.
//
// Positions are local grid metres, x east and y north; grid north is up and one
// scale serves both axes. The frame carries UTM eastings and northings, its
// corners latitude and longitude on WGS84. The difference between grid and
// true north is printed beside the arrow, with the sign of package geodesy:
// true = grid + convergence.
//
// On the sheet itself x runs right and y runs down, in pixels. What matters is
// told by shape or by dashes as well as by colour.
package chart
