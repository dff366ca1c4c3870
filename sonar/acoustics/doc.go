// Package acoustics holds the physics of a side-scan sonar that needs no
// world: how fast sound travels, how much the water swallows, how strongly a
// bottom sends it back, how a transducer shapes it, and how loud the sea is.
// Every function is pure, so the simulator, a planner and a calculator on the
// command line share the same numbers.
//
// # Units
//
// Lengths, ranges and depths are in metres, depth positive downwards. Times
// are in seconds, frequencies in hertz, angles in radians, speeds in m/s.
// Temperature is in degrees Celsius (ITS-90) and salinity in practical
// salinity units. Absorption is in dB/km, as the literature prints it.
//
// # Decibels
//
// A level is 10 log10 of a power ratio; a function says so when it returns
// one. Pressure levels are re 1 µPa, noise spectrum levels re 1 µPa²/Hz, source
// levels re 1 µPa at 1 m, bottom strengths re one square metre of bottom, and
// target strengths re a perfectly reflecting sphere of radius 2 m.
//
// # Angles
//
//	grazing     between the ray and the bottom: 0 along it, π/2 at nadir
//	off axis    from the broadside of an array
//	depression  below the horizontal, positive downwards on the array's own side
//
// # Symbols
//
//	c  speed of sound      λ  wavelength c/f      k  wave number 2π/λ
//	L  array length        R  slant range         h  height above the bottom
//	θ  grazing angle       τ  pulse length        B  bandwidth
package acoustics
