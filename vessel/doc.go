// Package vessel moves the survey vessel: steering, surge, the push of wind and
// current, her motion in waves, and the autopilot that steers her along a line
// and round from line to line.
//
// Frame: local grid, x east, y north, metres; headings and courses are grid
// bearings in radians, clockwise from north. Body axes: x forward, y to
// starboard, z up from the water line. Symbols: u surge speed through the
// water, v leeway (positive to starboard), r yaw rate (positive to starboard),
// delta rudder angle (positive turns to starboard).
//
// Sub-packages: sea (waves, gusts, current, tide), tow (cable and fish) and nav
// (instruments, geodesy, NMEA 0183).
package vessel
