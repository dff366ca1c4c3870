package seabed

import (
	"math"
	"sync/atomic"
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
	topBare   = 1 << 15 // nothing is in the cell
	topBroken = 1 << 14 // it has to be worked out
	topHeight = topBroken - 1

	topPitch = 1. / 32 // of the grid, metres
	topNodes = 1 << 16 // at most, 128 kB; the grid is as coarse as that takes
	topNear  = 0.02    // metres that its middle may be off straight lines
)

// baked is where a solid keeps its tops. They are worked out when they are first asked for; two
// who ask at once work out the same.
type baked struct{ tops atomic.Pointer[tops] }

func (b *baked) of(s solid) *tops {
	if t := b.tops.Load(); t != nil {
		return t
	}
	t := newTops(s)
	b.tops.Store(t)
	return t
}

// tabled is a solid whose top is read from a table.
type tabled interface {
	solid
	table() *tops
}

func (l *loft) table() *tops { return l.baked.of(l) }

// joined is lofts of one material that lie in one frame: one body.
type joined struct {
	lofts []*loft
	rect  rect
	baked
}

func (j *joined) bounds() rect { return j.rect }
func (j *joined) table() *tops { return j.baked.of(j) }

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

func newTops(s solid) *tops {
	r := s.bounds()
	wide, long := r.x1-r.x0, r.y1-r.y0
	pitch := topPitch
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
	t.low, t.step = low, max(high-low, 1e-6)/topHeight
	for k := range z {
		t.nodes[k] = topBare
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
			t.nodes[k] = t.nodes[k]&topHeight | topBroken
		}
	}
	return t
}

// raiseTabled sets samples over a part whose top is in a table. Places in the table count in 65536ths of
// a cell.
func (f *Furniture) raiseTabled(k int, s *placedPart, t *tops, p, step partPlace, first, end int) (highest float32) {
	const one = 1 << 16
	g := float64(f.First+first+1) * evenStep
	cells := t.perMetre * one
	u, v := int64((p.x+g*step.x-t.x0)*cells), int64((p.y+g*step.y-t.y0)*cells)
	du, dv := int64(step.x*evenStep*cells), int64(step.y*evenStep*cells)
	// All of it lies inside, but for rounding.
	first, u, v = t.inside(first, &end, u, v, du, dv)
	highest = nothing
	if first >= end {
		return highest
	}
	scale, class := float32(t.step/one), uint8(s.class)
	base, climb := float32(p.z+float64(f.First+first+1)*evenStep*step.z+t.low), float32(step.z*evenStep)
	heights, classes, by := f.Z[first:end], f.Class[first:end], f.by[first:end]
	classes, by = classes[:len(heights)], by[:len(heights)]
	for i, height := range heights {
		at := int(v>>16)*t.nx + int(u>>16)
		low, high := (*[2]uint16)(t.nodes[at:]), (*[2]uint16)(t.nodes[at+t.nx:])
		fu, fv := int64(u&(one-1)), int64(v&(one-1))
		u, v = u+du, v+dv
		corner := int64(low[0])
		var top float32
		if corner < topBroken {
			a := corner<<16 + fu*(int64(low[1]&topHeight)-corner)
			c := int64(high[0] & topHeight)
			c = c<<16 + fu*(int64(high[1]&topHeight)-c)
			a += fv * (c - a) >> 16
			top = base + float32(float32(a)*scale)
			if climb != 0 {
				top += float32(float32(i) * climb)
			}
		} else {
			if corner&topBroken == 0 {
				continue
			}
			exact, ok := p.after(step, float64(f.First+first+i+1)*evenStep).top(s)
			if !ok {
				continue
			}
			top = float32(exact)
		}
		if top > height {
			heights[i], classes[i], by[i] = top, class, int32(k+1)
			if top > highest {
				highest = top
			}
		}
	}
	return highest
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
