package seabed

import (
	"math"

	"dryline/seabed/chance"
)

// The roughness of a sediment is one spectrum from twice the step of the micro-relief
// to longestRoughness, whose level is published (see newPatch). Up to longestMicro it
// is added at every step of a ray; what is longer lies in the tiles. Still longer waves
// are the relief that an exercise asks for.
//
// The published law comes of photographs about a metre across. Were it to hold on and
// on, medium sand would undulate by 7 cm rms between waves of 2 and 32 m, and slopes of
// 3 degrees would cover the far half of a swath with blotches, in which sand waves are
// lost; level sand is not like that. So it ends at an outer scale, as von Karman's
// form of it does (Jackson and Richardson, High-Frequency Seafloor Acoustics, 2007, use
// that form; from memory). The scale is our own choice: waves of a metre keep
// their published level within half a decibel, slopes beyond 2 m halve, and over a metre
// of bottom, whose tilt the published relief contains, three quarters of it remain.
const (
	longestMicro     = 2.0  // metres
	longestRoughness = 32.0 // metres
	outerScale       = 4.0  // metres
)

// fabric is the roughness of a world's sediments.
type fabric struct {
	grains quilt   // micro-relief for a roughness of one metre over one metre
	tufts  quilt   // of seagrass, for an rms height of one metre; without a patch where there is none
	long   quilt   // the longer waves, a node of it to a node of a tile
	lobes  quilt   // of the borders of sediments: without an outer scale
	ragged float32 // one over the rms height of grains and lobes together
}

// Pieces of the micro-relief, in nodes: 26 m with seams of 1.3 m. Those of the longer
// waves: 64 m, half of it seam.
const (
	microPiece = 320
	microSeam  = 8
	longPiece  = 256
	longSeam   = 64
)

func newFabric(spec *Spec, seed uint64) fabric {
	// Measured depths hold the longer waves themselves.
	longMicro, longLong := longestMicro, longestRoughness
	if spec.Depths != nil {
		longMicro, longLong = min(longMicro, 2*spec.Depths.Cell()), min(longLong, 2*spec.Depths.Cell())
	}
	f := fabric{
		grains: quilt{
			patch: newPatch(microStep, 2*microStep, longMicro, outerScale, seed, "grains"),
			side:  microPiece, seam: microSeam, seed: chance.Seed(seed, "seabed/quilt"),
		},
		long: quilt{
			patch: newPatch(nodeStep, longestMicro, longLong, outerScale, seed, "long"),
			side:  longPiece, seam: longSeam, seed: chance.Seed(seed, "seabed/quilt/long"),
		},
	}
	if longLong <= longestMicro {
		f.long.patch = new(patch) // there is nothing between the grid's waves and the micro-relief
	}
	f.lobes = f.long
	f.lobes.patch = newPatch(nodeStep, longestMicro, longestRoughness, math.Inf(1), seed, "long")
	_, long := f.lobes.patch.moments()
	_, micro := f.grains.patch.moments()
	f.ragged = float32(1 / math.Hypot(long, micro))
	f.tufts = f.grains
	if spec.holds(Seagrass) {
		f.tufts.patch = newTufts(seed)
	}
	return f
}

// quiltOrigin keeps the coordinates of quilts positive, in nodes.
const quiltOrigin = 1 << 20

// border is by how much the border of a patch of sediment strays, along a row of nodes
// of a tile: normal, of standard deviation 1, with structure at every scale from 32 m to
// the nodes. The micro-relief serves for its short waves, three times as long.
type border struct {
	lobes, grains weave
	ragged        float32
	strays, short [tileSide]float32
}

// border lays that of the k-th patch out over the tile whose south-west corner is (x0, y0).
func (f *fabric) border(b *border, k int, x0, y0 float64) {
	kind := Class(128 + k) // draws that no ground has
	b.lobes.lay(&f.lobes, kind, x0, y0)
	b.grains.lay(&f.grains, kind, x0, y0)
	b.ragged = f.ragged
}

// line fills strays along row j, from one column to before another.
func (b *border) line(j, from, to int) {
	b.lobes.line(&b.strays, j, from, to)
	b.grains.line(&b.short, j, from, to)
	for i := from; i < to; i++ {
		b.strays[i] = b.ragged * (b.strays[i] + b.short[i])
	}
}

// spread fills a tile with it.
func (b *border) spread(dst *field) {
	for j := range tileSide {
		b.line(j, 0, tileSide)
		copy(dst[j*tileSide:], b.strays[:])
	}
}

// of is the quilt of a sediment.
func (f *fabric) of(class Class) *quilt {
	if class == Seagrass {
		return &f.tufts
	}
	return &f.grains
}

// pieces are those that a ray was last on, by the kind of ground: near borders it goes
// to and fro between two.
type pieces [piecesKept]footing

const piecesKept = 4

// between is the micro-relief at (u, v), the share t of the way from one node of a
// ray to the next. Between two sediments one goes over into the other.
func (f *fabric) between(p *pieces, n, next *rayNode, t, u, v float64) float64 {
	a := f.of(n.class).at(&p[n.class%piecesKept], n.class, u, v)
	if n.class == next.class {
		return n.rms * a
	}
	b := f.of(next.class).at(&p[next.class%piecesKept], next.class, u, v)
	return ((1-t)*n.rms*a + t*next.rms*b) / math.Sqrt((1-t)*(1-t)+t*t)
}
