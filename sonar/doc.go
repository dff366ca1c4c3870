// Package sonar turns one ping over a sea floor into samples.
//
// Frame: the local grid (x east, y north, z up, metres). A side is port or
// starboard of the fish. Symbols: R slant range, g ground range, h height of
// the fish above the floor, gamma grazing angle between the ray and the local
// surface, theta angle off the beam axis along track. Levels are dB re 1 uPa
// (source level at 1 m); inside the engine they are linear intensities.
//
// For each side a few rays fan across the main lobe. Along each the floor is
// walked outward, the running maximum of the elevation angle deciding what is
// lit (that is the whole shadow test), and every lit step adds
//
//	beam pattern x backscatter(gamma, class) x area
//
// into the range bin its echo falls in; layover comes out by itself. Spreading,
// absorption, noise, speckle, time-varying gain and quantisation follow per
// bin; what spoils a record (Effects) comes between propagation and receiver. All
// channels share one walk. A ping allocates nothing.
//
// Sub-packages: acoustics (the physics of water and seabed), recorder (its
// settings and counts), lanes (the walk, sixteen facets at a time), waterfall and
// mosaic (pictures, from samples and positions alone).
package sonar
