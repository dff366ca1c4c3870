// Package nav gives what the instruments on board say, which is not quite the truth.
//
// Frame: positions on the local grid in metres; bearings in radians clockwise,
// true where the type says so; angles off the bow positive to starboard; depths
// below the water as the tide has it, waves apart, and altitudes above the floor
// or what stands on it in metres, positive; pitch positive nose up, roll positive
// starboard down, heave positive up. A reading carries no truth: whatever a
// surveyor could not read off a display is not in it.
//
// Every instrument speaks at its own rate, of what was its delay ago, with a
// fixed error, a random one from reading to reading and a last digit. Between
// two reports, and while it has nothing to say, its display holds the last
// value; [Reading] says which displays are to be believed by their own account.
// Each draws on its own streams of the exercise seed, so spoiling one moves no
// other. Displays that work values out from others (the beacon's position, the
// true wind) take them as the displays have them, errors and all.
//
// Sub-packages: geodesy maps the local grid to UTM and to latitude and longitude;
// nmea says a reading in sentences of NMEA 0183.
package nav
