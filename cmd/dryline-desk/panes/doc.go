// Package panes draws the live pictures of the watch: waterfall, chart and the
// view from the side. Each keeps its own textures, is fed from Update and only
// draws in Draw. Intensities stay grey in the textures and get their colour in
// a shader, so that a change of ramp or contrast touches no history.
package panes
