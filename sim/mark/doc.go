// Package mark holds how a survey is marked: the rubric's items and weights, which
// contact is counted for which object, and the statistics that a mark is made of.
// It knows no session: package debrief brings the figures, so that the arithmetic
// can be checked against published worked examples alone.
package mark
