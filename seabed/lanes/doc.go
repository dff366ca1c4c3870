// Package lanes samples the floor along a ray sixteen samples at a time: the innermost
// loop of a ray over open ground.
//
// A ray has a node every quarter metre (see seabed.World.Trace) and a sample every
// 1/64 m, so that the sixteen samples past a node are one block, and what the cubic
// through four nodes weighs them with is the same sixteen numbers in every block:
//
//	z(l) = w0(l) p0 + w1(l) p1 + w2(l) p2 + w3(l) p3 ,  t = (l+1)/16, l = 0..15
//
// The last sample of a block lies on the next node; none lies on the ray's origin, where
// a tangent of elevation has no value. Micro-relief is added from its patch, bilinear
// between four of its nodes. Where a block lies in the patch is told to a node and its
// fraction, so that float32 loses nothing to the size of the world: heights are over a
// datum of the caller's, best the fish.
//
// Every function has a scalar form in Go; on amd64 there are forms for AVX2 and AVX-512, made
// by gen, that give the same bits. That holds as every one does the same roundings in the same
// order: products are written float32(x*y), which keeps the compiler from fusing them with a
// sum. The floor and its seams have plain forms in the tests, which are the reference for all.
//
// Floor is for blocks on one piece of micro-relief and one sediment; AddSeams adds the relief
// of those across a seam or a border, AddRipples ripples. What lies where four pieces or two
// fields of ripples meet is left to the caller. Raise raises what has been laid so by the tops of a body that
// stands on it, read from a grid.
package lanes

//go:generate go run -tags purego ./gen -out floor_amd64.s -stubs floor_amd64.go -pkg lanes
