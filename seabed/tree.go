package seabed

import (
	"cmp"
	"math"
	"slices"
)

// tree finds the parts and rods near a ray or a point: a binary tree of
// upright boxes in plan, halved along the longer side. A ray that meets
// nothing tests a few boxes, however long or many the things are.
type tree struct{ nodes []treeNode }

// treeNode is a box by its middle and half sides. A leaf holds one thing; any
// other node has its first branch next to it and the second at index next.
type treeNode struct {
	cx, cy, hx, hy float64
	next           int32
	leaf           bool
	thing          thing
}

// thing is a part (its index) or a rod (the complement of its index).
type thing int32

// entry is a thing with its box, while the tree is built.
type entry struct {
	rect
	thing thing
}

func newTree(entries []entry) tree {
	var t tree
	if len(entries) > 0 {
		t.build(entries)
	}
	return t
}

func (t *tree) build(entries []entry) {
	all := nowhere()
	for _, e := range entries {
		all.include(e.x0, e.y0)
		all.include(e.x1, e.y1)
	}
	at := len(t.nodes)
	t.nodes = append(t.nodes, treeNode{
		cx: (all.x0 + all.x1) / 2, cy: (all.y0 + all.y1) / 2,
		hx: (all.x1 - all.x0) / 2, hy: (all.y1 - all.y0) / 2,
	})
	if len(entries) == 1 {
		t.nodes[at].leaf, t.nodes[at].thing = true, entries[0].thing
		return
	}
	middle := func(e entry) float64 { return e.x0 + e.x1 }
	if all.y1-all.y0 > all.x1-all.x0 {
		middle = func(e entry) float64 { return e.y0 + e.y1 }
	}
	slices.SortFunc(entries, func(a, b entry) int {
		return cmp.Or(cmp.Compare(middle(a), middle(b)), cmp.Compare(a.thing, b.thing))
	})
	half := len(entries) / 2
	t.build(entries[:half])
	t.nodes[at].next = int32(len(t.nodes))
	t.build(entries[half:])
}

// treeDepth is enough for 2^30 things: each level halves them.
const treeDepth = 32

// cross appends the things whose boxes the stretch from g0 to g1 of the ray
// from (x, y) along the unit vector (ux, uy) meets.
func (t *tree) cross(dst []thing, x, y, ux, uy, g0, g1 float64) []thing {
	return t.near(dst, x, y, ux, uy, g0, g1, 0)
}

// near appends the things whose boxes lie within a distance to either side of
// the stretch from g0 to g1 of the ray from (x, y) along the unit vector (ux, uy).
func (t *tree) near(dst []thing, x, y, ux, uy, g0, g1, side float64) []thing {
	if len(t.nodes) == 0 {
		return dst
	}
	// The stretch by its middle and half extents: it misses a box that lies
	// clear of it along x, along y or across the ray (separating axes).
	middle, half := (g0+g1)/2, (g1-g0)/2
	x, y = x+middle*ux, y+middle*uy
	ax, ay := math.Abs(ux), math.Abs(uy)
	wideX, wideY := half*ax+side*ay, half*ay+side*ax
	var stack [treeDepth]int32
	depth := 1 // stack[0] is the root, node 0
	for depth > 0 {
		depth--
		at := stack[depth]
		n := &t.nodes[at]
		dx, dy := n.cx-x, n.cy-y
		if math.Abs(dx) > n.hx+wideX || math.Abs(dy) > n.hy+wideY ||
			math.Abs(dx*uy-dy*ux) > n.hx*ay+n.hy*ax+side {
			continue
		}
		if n.leaf {
			dst = append(dst, n.thing)
			continue
		}
		stack[depth], stack[depth+1] = n.next, at+1
		depth += 2
	}
	return dst
}

// plantTree builds the tree over everything that stands in the world.
func (w *World) plantTree() {
	entries := make([]entry, 0, len(w.parts)+len(w.rods))
	for i := range w.parts {
		entries = append(entries, entry{w.parts[i].plan(), thing(i)})
	}
	for i := range w.rods {
		entries = append(entries, entry{w.rods[i].plan(), ^thing(i)})
	}
	w.tree = newTree(entries)
}
