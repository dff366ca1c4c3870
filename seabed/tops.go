package seabed

import (
	"math"
)

// tops is the top of a loft worked out once at the nodes of a grid in the loft's own frame, and
// read on straight lines between them: working out where a section's outlines lie costs twenty
// times as much. Where the top is steep or broken off within a cell it is worked out as ever, so edges
// are as sharp as they are.
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
	topBare   = 1 << 15 // nothing of the loft is in the cell
	topBroken = 1 << 14 // it has to be worked out
	topHeight = topBroken - 1

	topPitch = 1. / 32 // of the grid, metres
	topNodes = 1 << 16 // at most: 128 kB a loft. The grid is as coarse as that takes
	topSteep = 1.5     // rise of a cell over its length
	topNear  = 0.01    // metres that its middle may be off straight lines
)

// tabled is the table of the loft. It is worked out when it is first asked for; two who ask at once work
// out the same one.
func (l *loft) tabled() *tops {
	if t := l.tops.Load(); t != nil {
		return t
	}
	t := l.newTops()
	l.tops.Store(t)
	return t
}

func (l *loft) newTops() *tops {
	wide, long := l.rect.x1-l.rect.x0, l.rect.y1-l.rect.y0
	pitch := topPitch
	nodes := func() (nx, ny int) { return int(wide/pitch) + 2, int(long/pitch) + 2 }
	nx, ny := nodes()
	for nx*ny > topNodes {
		pitch *= 1.02
		nx, ny = nodes()
	}
	t := &tops{x0: l.rect.x0, y0: l.rect.y0, perMetre: 1 / pitch, nx: nx, nodes: make([]uint16, nx*ny)}
	z := make([]float64, nx*ny)
	low, high := math.Inf(1), math.Inf(-1)
	for k := range z {
		v, ok := l.top(t.x0+float64(k%nx)*pitch, t.y0+float64(k/nx)*pitch)
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
		middle, ok := l.top(t.x0+(float64(k%nx)+0.5)*pitch, t.y0+(float64(k/nx)+0.5)*pitch)
		none := math.IsNaN(a) && math.IsNaN(b) && math.IsNaN(c) && math.IsNaN(d)
		steep := max(a, b, c, d)-min(a, b, c, d) > topSteep*pitch
		off := math.Abs((a+b+c+d)/4-middle) > topNear
		switch {
		case none && !ok:
		case math.IsNaN(a + b + c + d), !ok, steep, off:
			t.nodes[k] = t.nodes[k]&topHeight | topBroken
		}
	}
	return t
}

// raiseLoft sets samples over a loft.
func (f *Furniture) raiseLoft(k int, s *placedPart, l *loft, p, step partPlace, first, end int) {
	t := l.tabled()
	g := float64(f.First+first+1) * evenStep
	u, v := (p.x+g*step.x-t.x0)*t.perMetre, (p.y+g*step.y-t.y0)*t.perMetre
	du, dv, dz := step.x*evenStep*t.perMetre, step.y*evenStep*t.perMetre, step.z*evenStep
	z := p.z + g*step.z + t.low
	heights, classes, objects, by := f.Top[first:end], f.Class[first:end], f.Object[first:end], f.by[first:end]
	for i := range heights {
		n := float64(i)
		u, v := u+n*du, v+n*dv
		x, y := int(u), int(v)
		at := y*t.nx + x
		if u < 0 || v < 0 || x >= t.nx-1 || at+t.nx+1 >= len(t.nodes) {
			continue // the border, by rounding
		}
		low, high := (*[2]uint16)(t.nodes[at:]), (*[2]uint16)(t.nodes[at+t.nx:])
		var top float32
		if low[0] >= topBroken {
			if low[0]&topBroken == 0 {
				continue
			}
			exact, ok := p.after(step, float64(f.First+first+i+1)*evenStep).top(s)
			if !ok {
				continue
			}
			top = float32(exact)
		} else {
			fu, fv := float32(u-float64(x)), float32(v-float64(y))
			a, b := float32(low[0]), float32(low[1]&topHeight)
			c, d := float32(high[0]&topHeight), float32(high[1]&topHeight)
			a += float32(fu * (b - a))
			c += float32(fu * (d - c))
			top = float32(z+n*dz) + float32((a+float32(fv*(c-a)))*float32(t.step))
		}
		if top > heights[i] {
			heights[i], classes[i], objects[i], by[i] = top, uint8(s.class), s.object, int32(k+1)
		}
	}
}
