// Package look has the looks of the trainer window: themes, lettering, sizes
// and the few controls built from them. Everything is sized from one scale
// value; nothing here knows of surveys.
//
// Sizes are given in points of scale 1 and become pixels by [Look.Px]. No
// lettering is smaller than [SmallSize].
package look
