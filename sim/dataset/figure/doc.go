// Package figure draws the figures of a report: panels side by side below a title, with the
// caution that goes with everything at the foot. Panels are plots of gonum.org/v1/plot;
// this room gives them one look. Colours are told apart by the common kinds of colour
// blindness (M. Okabe and K. Ito, "Color Universal Design", 2008), and what colour tells
// apart its glyph or dashes do as well.
package figure
