package sonar

import (
	"slices"

	"dryline/sonar/lanes"
)

// taking is bare ground that a strip takes away again: the facets that end at a sample and before
// another, weighed by segment.
type taking struct {
	from, to    int // samples
	first, last int // segments
	weights     int // where they begin in the list of them: by channel, each from the first segment to the last
}

// take has the ground taken away at the end of the cell, weighed as the lanes' strips are.
func (v *even) take(ws *Workspace, from, to, first, last int) {
	s := &v.strip
	s.taken = append(s.taken, taking{from, to, first, last, len(s.bare)})
	s.edges = append(s.edges, from, to)
	for c := range ws.lanes {
		for _, w := range ws.lanes[c].strip[first : last+1] {
			s.bare = append(s.bare, float32(-(1-shadowFill)*w))
		}
	}
}

// takeBare takes away what the ray has given for the ground that strips stand for. Ground that several
// of them take away is gone through once.
func (v *even) takeBare(ws *Workspace) {
	s := &v.strip
	slices.Sort(s.edges)
	for i := 1; i < len(s.edges); i++ {
		if from, to := s.edges[i-1], s.edges[i]; from < to {
			v.takePiece(ws, from, to)
		}
	}
	s.taken, s.edges, s.bare = s.taken[:0], s.edges[:0], s.bare[:0]
}

// takePiece takes away ground that the same strips take away all along.
func (v *even) takePiece(ws *Workspace, from, to int) {
	first, last := v.segments(ws, from, to)
	for c := range ws.lanes {
		p, i := v.of(c)
		clear(p.strip[i][first : last+1])
	}
	some := false
	for _, t := range v.strip.taken {
		if t.from > from || t.to < to {
			continue
		}
		some = true
		n := t.last + 1 - t.first
		begin, end := max(first, t.first), min(last, t.last)+1
		for c := range ws.lanes {
			p, i := v.of(c)
			at := t.weights + c*n - t.first
			sum := p.strip[i][begin:end]
			for k, w := range v.strip.bare[at+begin : at+end] {
				sum[k] += w
			}
		}
	}
	if !some {
		return
	}
	for i := range v.pairs {
		p := &v.pairs[i]
		blocks := p.blocks[from/lanes.Width : (to-1)/lanes.Width+1]
		// The ends of what is taken lie within a block; what they hide of it comes back.
		before, after := blocks[0], blocks[len(blocks)-1]
		for l := range from % lanes.Width {
			blocks[0].First[l], blocks[0].Second[l] = 0, 0
		}
		b := &blocks[len(blocks)-1]
		for l := (to-1)%lanes.Width + 1; l < lanes.Width; l++ {
			b.First[l], b.Second[l] = 0, 0
		}
		v.deposit(p, blocks, p.strip, first, last)
		blocks[len(blocks)-1] = after
		blocks[0] = before
	}
}
