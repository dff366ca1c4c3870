// Package lanes is the innermost loop of a ping over ground: sixteen facets of a ray at a
// time, along the range, so that all lanes are full however many rays there are.
//
// The facets are a step of 1/64 m of ground range long. What is lit is told by a running
// maximum of the elevation, which in lanes is a prefix maximum; what a facet answers
// is a record of its energy in two channels and the slant ranges it spans; and a
// second pass adds the records to the bins, each to one bin or two (Deposit).
// It adds energy, where the walk of package sonar adds changes of it: nothing is lost to
// a running sum, and float32 does.
//
// The beam along track is left to Settle, by the bin rather than by the facet.
// What else is left to the caller multiplies a block's energies between Walk and
// Deposit: what hides a facet or lets its echo through, the boost of objects.
//
// From the bins on to the samples the same lanes go along the record: what of the echo is left
// (Gather), the pulse (Convolve), level sheets in the water (AddRings), noise (Draw) and reception (Receive).
//
// Every function has a scalar form in Go; on amd64 there are forms for AVX2 and AVX-512, made
// by gen, that give the same bits. See seabed/lanes for how. The reference for all of them is
// in the tests: plain forms, facet by facet.
package lanes

//go:generate go run -tags purego ./gen -out lanes_amd64.s -stubs lanes_amd64.go -pkg lanes
