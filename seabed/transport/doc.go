// Package transport works out what flowing water does to a bed of grains: when they
// move, what ripples and dunes they are heaped into, how deep a thing on them sinks.
//
// Lengths in metres, speeds in m/s, stresses in Pa; D is a grain's median diameter. The
// laws are those of the textbooks, in sea water of 1027 kg/m^3 over quartz of
// 2650 kg/m^3; they hold to a factor of about two in the field, and ripple laws give
// the largest ripples rather than the mean (Kraemer and Winter 2016).
package transport

// Sea water and quartz.
const (
	gravity   = 9.81    // m/s^2
	water     = 1027.0  // kg/m^3
	quartz    = 2650.0  // kg/m^3
	viscosity = 1.36e-6 // m^2/s, of sea water at 10 degrees
	ratio     = quartz / water
)
