// Package nav is what the instruments on board say, which is not quite what is.
//
// Frame: positions on the local grid in metres; bearings in radians clockwise,
// true where the type says so; depths below still water and altitudes above
// the floor in metres, positive. A reading carries no truth: whatever a
// surveyor could not read off a display is not in it.
//
// Sub-package geodesy maps the local grid to UTM and to latitude and longitude.
package nav
