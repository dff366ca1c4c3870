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
		v.bend(ws.refraction, l.z)
	}
	stands := e.stripsIn(ws, ray)
	if stands || e.spoilers.water.veils() {
		v.asSection(&ws.section, l.z)
	}
	through := e.spoilers.water.veil(ws, e.bin, x, y, l.z, ux, uy)
	v.mixed = v.mixed || through != nil || stands
	for i := range v.pairs {
		p := &v.pairs[i]
		from := lanes.Below(v.ground.Z[0])
		v.walk(ws, p.blocks, p, 0, &from)
		scale(p.blocks, nil, through)
		first, last := ray*ws.segments, (ray+1)*ws.segments
		weights := [2][]float32{p.weights[0][first:last], p.weights[1][first:last]}
		lanes.Deposit(v.bins, p.blocks, v.long)
		if i == 0 {
			ws.look(p.blocks, l.z)
		}
		v.settle(p, p.blocks, weights)
	}
	if stands {
		e.walkStrips(ws, floor, dst, ray, l, through)
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

// deposit adds blocks to the energy of a pair.
func (v *even) deposit(p *evenPair, blocks []lanes.Block, weights [2][]float32) {
	lanes.Deposit(v.bins, blocks, v.long[:len(blocks)])
	v.settle(p, blocks, weights)
}

// settle adds what has been deposited of blocks.
func (v *even) settle(p *evenPair, blocks []lanes.Block, weights [2][]float32) {
	lanes.Settle(p.energy[0], p.energy[1], v.bins, weights[0], weights[1])
	lanes.Spread(p.energy[0], p.energy[1], blocks, v.long[:len(blocks)], weights[0], weights[1])
}

// scale multiplies what facets answer by what is not hidden of them and by what comes
// through; nil for all.
func scale(blocks []lanes.Block, hidden, through []float64) {
	if hidden == nil && through == nil {
		return
	}
	for i := range max(len(hidden), len(through)) {
		x := 1.0
		if hidden != nil {
			x -= hidden[i]
		}
		if through != nil {
			x *= through[i]
		}
		if x != 1 {
			b, l := &blocks[i/lanes.Width], i%lanes.Width
			b.First[l] *= float32(x)
			b.Second[l] *= float32(x)
		}
	}
}
