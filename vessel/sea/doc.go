// Package sea is the water the vessel works in: waves, the wind that gusts over
// them, the current at each depth and the tide.
//
// Frame: the local grid, x east, y north, z up, metres, still water at z = 0.
// Bearings are grid bearings in radians, clockwise from north. Waves and
// currents are said by where they go, winds by where they come from.
//
// Symbols: omega frequency in rad/s, k wave number in rad/m, h depth of water,
// Hs significant wave height (four standard deviations of the surface), Tp
// period of the spectral peak, m0 variance of the surface, U10 mean wind 10 m
// above the water. A depth of 0 means deep water.
//
// The waves are linear: crests are no sharper than troughs, nothing breaks,
// and the current does not bend them.
package sea
