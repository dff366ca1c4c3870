// Package coverage works out, from where the desk believes every ping lay, what of an
// area was seen, where the holidays are, why, and which lines would fill them.
//
// Frame: local grid metres, grid bearings in radians. It is as wrong as the
// navigation, as coverage at sea is.
package coverage
