// Package picture draws a waterfall for people: what a line sounded like, with
// ranges, distances and times written at its edges.
//
// The picture is a view from above, the fish steaming up it: the newest ping is
// at the top, port is on the left, starboard on the right, and nadir runs down
// the middle. Ranges are slant ranges in metres from the fish, counted outwards
// on both sides; distances are metres along the track, times seconds.
//
// Rows hold 8-bit grey values already levelled for looking at. Where several
// samples or pings share a pixel their mean is drawn, so a small bright target
// dims as the picture shrinks but is never skipped.
//
// Colour comes from a [Ramp]. Lightness, in this package, is the L of OKLab
// (B. Ottosson, "A perceptual color space for image processing", 2020), 0 for
// black and 1 for white.
package picture
