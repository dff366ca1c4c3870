// Package debrief compares what the desk believes with what is true: coverage,
// line keeping, height, pings per metre, the objects on the record, the
// position of the mosaic, and a score that says where each point came from.
//
// Frame: local grid metres, x east and y north. Errors are desk less truth,
// in the frame of the line as it was run: along it, positive ahead, and across
// it, positive to its right. A fish laid too far astern has a negative error
// along the line. Heights are shares of the range scale, in percent. RMS is
// about zero, not about the mean; "95 %" is the smallest value that 95 in 100
// absolute values do not exceed.
//
// A report is a pure function of the session, during it or after it. Numbers
// in it are finite and rounded to a thousandth; what cannot be known (the
// speed on a line without pings, say) is left out rather than set to zero.
//
// It is a training aid. A good score says that an exercise went well; it never
// says that an area is clear.
//
// Sub-package: chart (the overview sheet).
package debrief
