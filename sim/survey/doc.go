// Package survey is the surveyor's desk: where the fish is believed to be, the
// bottom track, the line log, the mosaic and the contacts.
//
// The desk sees observations only: instrument readings and ping samples.
// Nothing here imports the sea floor, the vessel or the tow; a test checks it.
// What it believes may be wrong, and then its products are wrong in the same
// way as they would be at sea.
//
// Frame: local grid metres, grid bearings in radians, ranges by the desk's own
// sound speed.
//
// Sub-packages: calibrate (what the layback is wrong by, how well a system places an
// object), coverage (what was seen of an area, holidays and lines that fill them),
// geojson (lines and contacts for any map program).
package survey
