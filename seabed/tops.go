package seabed

import (
	"encoding/binary"
	"math"
	"math/bits"
	"sync/atomic"

	"dryline/seabed/lanes"
)

// tops is the top of a solid worked out once at the nodes of a grid in its own frame, and
// read on straight lines between them: working out where a section's outlines lie costs twenty
// times as much. Where the top breaks off within a cell, or bends, it is worked out as ever, so that edges are as
// sharp as they are. (Taking the nearest node there instead put 0.4 dB on a car.)
//
// A node holds its height in steps of its range, and two marks of the cell that it is the
// south-west corner of.
type tops struct {
	x0, y0   float64
	perMetre float64
	nx       int
	low      float64 // metres
	step     float64
	nodes    []uint16
}

const (
	topPitch = 1. / 32 // of the grid, metres
	topNodes = 1 << 16 // at most, 128 kB; the grid is as coarse as that takes
	topNear  = 0.02    // metres that its middle may be off straight lines
)

// baked is where a solid keeps its tops. They are worked out when they are first asked for; two
// who ask at once work out the same.
type baked struct{ tops atomic.Pointer[tops] }

func (b *baked) of(s solid, pitch float64) *tops {
	if t := b.tops.Load(); t != nil {
		return t
	}
	t := newTops(s, pitch)
	b.tops.Store(t)
	return t
}

// tabled is a solid whose top is read from a table.
type tabled interface {
	solid
	table() *tops
}

func (l *loft) table() *tops { return l.baked.of(l, topPitch) }

// joined is lofts of one material that lie in one frame: one body.
type joined struct {
	lofts []*loft
	rect  rect
	baked
}

func (j *joined) bounds() rect { return j.rect }
func (j *joined) table() *tops { return j.baked.of(j, topPitch) }

func (j *joined) top(x, y float64) (z float64, ok bool) {
	for _, l := range j.lofts {
		if ok && l.high <= z {
			continue // worn, it is lower still
		}
		if top, there := l.top(x, y); there && (!ok || top > z) {
			z, ok = top, true
		}
	}
	return z, ok
}

func newTops(s solid, pitch float64) *tops {
	r := s.bounds()
	wide, long := r.x1-r.x0, r.y1-r.y0
	pitch = max(pitch, topPitch)
	nodes := func() (nx, ny int) { return int(wide/pitch) + 2, int(long/pitch) + 2 }
	nx, ny := nodes()
	for nx*ny > topNodes {
		pitch *= 1.02
		nx, ny = nodes()
	}
	t := &tops{x0: r.x0, y0: r.y0, perMetre: 1 / pitch, nx: nx, nodes: make([]uint16, nx*ny)}
	z := make([]float64, nx*ny)
	low, high := math.Inf(1), math.Inf(-1)
	for k := range z {
		v, ok := s.top(t.x0+float64(k%nx)*pitch, t.y0+float64(k/nx)*pitch)
		if !ok {
			z[k] = math.NaN()
			continue
		}
		z[k] = v
		low, high = min(low, v), max(high, v)
	}
	t.low, t.step = low, max(high-low, 1e-6)/lanes.TopHeight
	for k := range z {
		t.nodes[k] = lanes.TopBare
		if !math.IsNaN(z[k]) {
			t.nodes[k] = uint16((z[k]-low)/t.step + 0.5)
		}
		if k%nx == nx-1 || k/nx == ny-1 {
			continue // no cell begins here
		}
		a, b, c, d := z[k], z[k+1], z[k+nx], z[k+nx+1]
		middle, ok := s.top(t.x0+(float64(k%nx)+0.5)*pitch, t.y0+(float64(k/nx)+0.5)*pitch)
		none := math.IsNaN(a) && math.IsNaN(b) && math.IsNaN(c) && math.IsNaN(d)
		off := math.Abs((a+b+c+d)/4-middle) > topNear
		switch {
		case none && !ok:
		case math.IsNaN(a + b + c + d), !ok, off:
			t.nodes[k] = t.nodes[k]&lanes.TopHeight | lanes.TopBroken
		}
	}
	return t
}

// raiseTabled sets samples over a part whose top is in a table.
func (f *Furniture) raiseTabled(k int, s *placedPart, t *tops, p, step partPlace, first, end int) (highest float32) {
	const one = 1 << 16
	g := float64(f.First+first+1) * evenStep
	cells := t.perMetre * one
	u, v := int64((p.x+g*step.x-t.x0)*cells), int64((p.y+g*step.y-t.y0)*cells)
	du, dv := int64(step.x*evenStep*cells), int64(step.y*evenStep*cells)
	// All of it lies inside, but for rounding.
	first, u, v = t.inside(first, &end, u, v, du, dv)
	if first >= end {
		return nothing
	}
	course := lanes.Course{
		U: int32(u), V: int32(v), DU: int32(du), DV: int32(dv), Wide: int32(t.nx), Number: int32(k + 1),
		Base: float32(p.z + float64(f.First+first+1)*evenStep*step.z + t.low), Scale: float32(t.step / one), Climb: float32(step.z * evenStep),
	}
	heights, by := f.Z[first:end], f.by[first:end]
	found := f.found[:lanes.Blocks(len(heights))]
	highest = lanes.Raise(heights, by, found, t.nodes, &course)
	class := uint8(s.class)
	for n, of := range found {
		f.setClasses(first+n*lanes.Width, of.Higher, class)
		for ; of.Broken != 0; of.Broken &= of.Broken - 1 {
			i := first + n*lanes.Width + bits.TrailingZeros16(of.Broken)
			f.mayTurn(k, i)
			if i+1 < end {
				f.mayTurn(k, i+1)
			}
			if z, ok := p.after(step, float64(f.First+i+1)*evenStep).top(s); ok {
				highest = f.put(k, s, i, z, highest)
			}
		}
	}
	return highest
}

// setClasses sets those of the samples that bits choose, from one on.
func (f *Furniture) setClasses(from int, chosen uint16, class uint8) {
	if chosen == 1<<lanes.Width-1 {
		whole := f.Class[from : from+lanes.Width]
		eight := uint64(class) * 0x0101_0101_0101_0101
		binary.LittleEndian.PutUint64(whole, eight)
		binary.LittleEndian.PutUint64(whole[8:], eight)
		return
	}
	for ; chosen != 0; chosen &= chosen - 1 {
		f.Class[from+bits.TrailingZeros16(chosen)] = class
	}
}

// inside leaves out samples at either end that do not lie in a cell.
func (t *tops) inside(first int, end *int, u, v, du, dv int64) (int, int64, int64) {
	holds := func(u, v int64) bool {
		return u >= 0 && v >= 0 && u>>16 < int64(t.nx-1) && v>>16 < int64(len(t.nodes)/t.nx-1)
	}
	for ; first < *end && !holds(u, v); first++ {
		u, v = u+du, v+dv
	}
	for ; first < *end; *end-- {
		if n := int64(*end - 1 - first); holds(u+n*du, v+n*dv) {
			break
		}
	}
	return first, u, v
}
