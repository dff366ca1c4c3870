package sonar

import (
	"dryline/seabed"
	"dryline/sonar/lanes"
)

// EvenGround is a floor that answers a ray at the even steps of package lanes. A sonar that
// reads in fine steps does so over such a floor, and over any other as ever.
type EvenGround interface {
	Furnished

	// TraceStretch fills s with the ground without what stands on it: n nodes of a quarter
	// metre, heights over z.
	TraceStretch(s *seabed.Stretch, x, y, ux, uy float64, n int, z float64)
}

// TraceStretch implements [EvenGround].
func (g Ground) TraceStretch(s *seabed.Stretch, x, y, ux, uy float64, n int, z float64) {
	g.World.TraceStretch(s, x, y, ux, uy, n, z)
}

// soundEvenly gathers what the cell of one ray answers.
func (e *Engine) soundEvenly(ws *Workspace, dst *Echo, floor EvenGround, ray int, l *gaze) {
	v := ws.even
	place := e.fan.place[ray]
	x, y, ux, uy := l.along(&e.fan, place)
	floor.TraceStretch(&v.ground, x, y, ux, uy, len(v.pairs[0].blocks), l.z)
	ws.aim(e, ray, v.ground.Drawn)
	v.aim(e, ws, v.ground.Drawn)
	if ws.refraction != nil {
		v.bend(ws.refraction, l.z, v.ground.Z, 0, &v.bent)
	}
	stands := e.stripsIn(ws, ray)
	var through []float64
	if hanging := &e.spoilers.water; hanging.veils() && hanging.hangs(ws, x, y, ux, uy, v.steps[len(v.steps)-1]) {
		v.asSection(&ws.section, l.z)
		through = ws.veil.gather(ws, e.bin, l.z)
	}
	v.mixed = v.mixed || through != nil
	for i := range v.pairs {
		p := &v.pairs[i]
		if stands && i == 0 {
			v.walkMarking(ws, p)
		} else {
			from := lanes.Below(v.ground.Z[0])
			v.walk(ws, p.blocks, p, 0, &from)
		}
		scale(p.blocks, nil, through, 0)
		first, last := ray*ws.segments, (ray+1)*ws.segments
		weights := [2][]float32{p.weights[0][first:last], p.weights[1][first:last]}
		lanes.Deposit(v.bins, p.blocks, v.long)
		if i == 0 {
			ws.look(p.blocks)
		}
		v.settle(p, p.blocks, weights, 0, ws.segments-1)
	}
	if stands {
		st := &ws.strips
		for ; e.stripsIn(ws, ray); st.next++ {
			e.walkStripEvenly(ws, floor, dst, st.list[st.next], l, through)
		}
		v.takeBare(ws)
	}
}

// walk fills blocks with what the ground answers in a pair from a sample on.
func (v *even) walk(ws *Workspace, out []lanes.Block, p *evenPair, first int, from *lanes.Progress) {
	last := min(first+len(out)*lanes.Width, len(v.steps))
	v.walkTo(ws, out, p, first, last, from)
}

// walkTo is walk as far as a sample, without that.
func (v *even) walkTo(ws *Workspace, out []lanes.Block, p *evenPair, first, last int, from *lanes.Progress) {
	g := &v.ground
	before := float32(first) * lanes.Step // the ground range at which the first facet begins
	z, inverse, slope, class := g.Z[first:last], v.inverse[first:last], g.Slope[first:last], g.Class[first:last]
	if ws.refraction != nil {
		lanes.WalkBent(out, z, inverse, slope, class, v.bent.At(first), p.tables, from, before, v.perBin)
		return
	}
	lanes.Walk(out, z, inverse, slope, class, p.tables, from, before, v.perBin)
}

// deposit adds blocks, which answer in some segments of the range, to the energy of a pair.
func (v *even) deposit(p *evenPair, blocks []lanes.Block, weights [2][]float32, first, last int) {
	lanes.Deposit(v.bins, blocks, v.long[:len(blocks)])
	v.settle(p, blocks, weights, first, last)
}

// settle adds what has been deposited of blocks.
func (v *even) settle(p *evenPair, blocks []lanes.Block, weights [2][]float32, first, last int) {
	from, to := first*lanes.Width, min((last+1)*lanes.Width, len(p.energy[0]))
	lanes.Settle(p.energy[0][from:to], p.energy[1][from:to], v.bins[from:to+1], weights[0][first:], weights[1][first:])
	lanes.Spread(p.energy[0], p.energy[1], blocks, v.long[:len(blocks)], weights[0], weights[1])
}

// scale multiplies what facets answer by what is not hidden of them and by what comes
// through, as far as that is told; nil for all. The first of the facets is so far into what is hidden; less
// than 0 if that begins later.
func scale(blocks []lanes.Block, hidden, through []float64, into int) {
	for i := max(-into, 0); i < min(len(hidden)-into, len(blocks)*lanes.Width); i++ {
		if hidden[i+into] != 0 {
			times(blocks, i, 1-hidden[i+into])
		}
	}
	for i := range min(len(through), len(blocks)*lanes.Width) {
		if through[i] != 1 {
			times(blocks, i, through[i])
		}
	}
}

// times multiplies what a facet answers.
func times(blocks []lanes.Block, i int, x float64) {
	b, l := &blocks[i/lanes.Width], i%lanes.Width
	b.First[l] *= float32(x)
	b.Second[l] *= float32(x)
}
