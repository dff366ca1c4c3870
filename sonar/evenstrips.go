package sonar

import (
	"math"

	"dryline/sonar/lanes"
)

// findHorizon is that of the engine as lanes reckon it.
func (v *even) findHorizon(ws *Workspace) {
	h := ws.strips.horizon[:0]
	highest := float32(math.Inf(-1))
	for i := range v.steps {
		if t := v.tangent(ws, i); t > highest {
			highest = t
		}
		h = append(h, float64(highest))
	}
	ws.strips.horizon = h
}

// walkFurnished walks a strip: what was furnished, as far as the ground at i1, as ever, and from
// there the ground as far as i2 in lanes.
func (e *Engine) walkFurnished(ws *Workspace, s *Section, dst *Echo, first int, from progress, i1, i2 int, fishZ float64, hidden, through []float64) {
	v, n := ws.even, len(ws.strips.asked.G)
	near := *s
	near.G = s.G[:n]
	p := e.walk(ws, &near, dst, first, from, fishZ, hidden, through)
	if i2 <= i1 {
		return
	}
	if hidden != nil {
		hidden = hidden[n:]
	}
	if through != nil {
		through = through[n:]
	}
	blocks := v.spare[:lanes.Blocks(i2-i1)]
	v.aimStrip(ws, 1)
	for i := range v.pairs {
		pair := &v.pairs[i]
		at := lanes.Progress{Z: float32(-p.drop), R: float32(p.r), Tangent: float32(p.tangent), Horizon: float32(p.horizon)}
		v.walkTo(ws, blocks, pair, i1+1, i2+1, &at)
		scale(blocks, hidden, through)
		v.deposit(pair, blocks, pair.strip)
	}
}

// takeBare takes away what the ray has given for its ground from sample i0 to i2.
func (v *even) takeBare(ws *Workspace, i0, i2 int) {
	v.aimStrip(ws, -(1 - shadowFill))
	from, to := i0/lanes.Width, i2/lanes.Width+1
	for i := range v.pairs {
		pair := &v.pairs[i]
		blocks := v.spare[:copy(v.spare, pair.blocks[from:to])]
		for l := range i0 % lanes.Width {
			blocks[0].First[l], blocks[0].Second[l] = 0, 0
		}
		last := &blocks[len(blocks)-1]
		for l := i2%lanes.Width + 1; l < lanes.Width; l++ {
			last.First[l], last.Second[l] = 0, 0
		}
		v.deposit(pair, blocks, pair.strip)
	}
}

// aimStrip takes over the weights of the strip times a factor. Beyond the segments that it was
// weighed for nothing of it answers.
func (v *even) aimStrip(ws *Workspace, factor float64) {
	for c := range ws.lanes {
		p, i := v.of(c)
		clear(p.strip[i])
		for k := ws.strips.first; k <= ws.strips.last; k++ {
			p.strip[i][k] = float32(factor * ws.lanes[c].strip[k])
		}
	}
}
