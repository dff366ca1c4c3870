package sonar

import (
	"math"

	"dryline/seabed"
	"dryline/sonar/lanes"
)

// evenStrip holds what a strip needs besides the ground of its cell.
type evenStrip struct {
	horizon []float32 // of the ground of the cell, at the end of each stretch
	lowest  []float32 // of that ground in each, once asked for, else 0
	bent    lanes.Bending
	blocks  []lanes.Block
	taken   []taking
	edges   []int     // at which one of those begins or has ended
	bare    []float32 // weights of those
}

// evenPiece is a stretch of the ground of a cell, furnished, as far as its shadow goes. Its facets are those that end
// at the samples after the first.
type evenPiece struct {
	first, furnished, last int            // samples: the first, the last that is furnished, and the last
	next                   int            // the first of the ground that is walked on: what lies before it is all behind what stands
	top                    float32        // of what stands, over the fish, metres
	begin, end             lanes.Progress // of the walk of what is furnished
	near                   []lanes.Block  // what that has answered in the first pair
}

// walkStripEvenly is walkStrip on the blocks of the ray's cell.
func (e *Engine) walkStripEvenly(ws *Workspace, floor Furnished, dst *Echo, s band, l *gaze, through []float64) {
	st := &ws.strips
	place := (s.from + s.to) / 2
	st.meet(place)
	if math.Abs(place) > mainLobe {
		dst = nil
	}
	for things := st.things; len(things) > 0; {
		var p evenPiece
		n := 0
		for n < len(things) { // and what stands in the shadow of the others
			more := together(things, float64(p.last+1)*lanes.Step)
			if more == n {
				break
			}
			n = more
			p = e.furnishEvenly(ws, floor, things[:n], place, l)
		}
		if p.last > 0 {
			e.walkPiece(ws, dst, s, &p, l.z, through)
		}
		things = things[n:]
	}
}

// furnishEvenly furnishes the ground of the cell with things and walks over them in the first pair, to know how
// far their shadow goes; no piece if a ray at the place meets none.
func (e *Engine) furnishEvenly(ws *Workspace, floor Furnished, things []seabed.Footprint, place float64, l *gaze) (p evenPiece) {
	st, v := &ws.strips, ws.even
	f := &st.furniture
	x, y, ux, uy := l.along(&e.fan, place)
	floor.Furnish(f, things, x, y, ux, uy, len(v.ground.Z), l.z)
	if len(f.Z) == 0 {
		return p
	}
	i0, i1 := f.First, f.First+len(f.Z)-1
	copy(f.Z, v.ground.Z[i0:])
	copy(f.Class, v.ground.Class[i0:])
	top, stands := f.Raise()
	if !stands && len(f.Raised) == 0 {
		return p
	}
	if ws.refraction != nil {
		v.bend(ws.refraction, l.z, f.Z, i0, &v.strip.bent)
	}
	begin := v.progressAt(ws, i0)
	near := v.strip.blocks[:lanes.Blocks(i1-i0)]
	from := begin
	v.walkFurniture(ws, near, &v.pairs[0], i0, &from)
	highest := from.Horizon
	for i := range f.Raised {
		r := &f.Raised[i]
		q := newQuad(r, l.z)
		_, high := q.elevations()
		highest, top = max(highest, float32(high)), max(top, float32((r.Z0+r.Z1)/2-l.z))
	}
	i2 := min(v.rises(ws, i1, highest)/lanes.Width*lanes.Width+lanes.Width, len(v.ground.Z)) - 1 // to the end of a block
	next := max(v.rises(ws, i1, from.Horizon)/lanes.Width*lanes.Width, i1+1)
	return evenPiece{i0, i1, i2, next, top, begin, from, near}
}

// walkPiece adds what a strip answers over a piece, and has its ground taken away.
func (e *Engine) walkPiece(ws *Workspace, dst *Echo, s band, p *evenPiece, fishZ float64, through []float64) {
	st, v := &ws.strips, ws.even
	f, i0, i1, i2, next := &st.furniture, p.first, p.furnished, p.last, p.next
	// The ground and what stands on it have the same share of the beam at the same
	// ground range, which are different slant ranges.
	altitude := float64(ws.key) * altitudeStep
	first, last := v.segments(ws, i0, i2)
	if !e.weighBand(ws, s, standingAltitude(altitude, float64(p.top)), first, last) {
		return
	}
	v.aimStrip(ws, first, last)
	st.turns = f.Turns(st.turns[:0])
	hidden, lifted := v.walkRaised(e, ws, dst, i0, i2, float64(p.begin.Horizon), fishZ)
	for i := range v.pairs {
		pair, near, from := &v.pairs[i], p.near, p.end
		if i > 0 {
			from = p.begin
			v.walkFurniture(ws, near, pair, i0, &from)
		}
		all := v.strip.blocks[:len(near)]
		scale(near, hidden, part(through, i0+1), 1-lifted)
		v.turn(ws, near)
		strengthen(e, near, f)
		if i2 > i1 {
			far := v.strip.blocks[len(near) : len(near)+lanes.Blocks(i2+1-next)]
			all = v.strip.blocks[:len(near)+len(far)]
			if next > i1+1 {
				horizon := from.Horizon
				from = v.progressAt(ws, next-1)
				from.Horizon = horizon
			}
			v.walkTo(ws, far, pair, next, i2+1, &from)
			scale(far, hidden, part(through, next), next-i0-lifted)
		}
		if i == 0 {
			v.see(ws, dst, near)
		}
		v.deposit(pair, all, pair.strip, first, last)
	}

	e.weighBand(ws, s, altitude, first, last)
	v.take(ws, i0+1, i2+1, first, last)
}

// part returns the shares of facets from one on; nil stands for all whole.
func part(shares []float64, from int) []float64 {
	if shares == nil {
		return nil
	}
	return shares[from:]
}

// walkFurniture fills blocks with what the furnished ground answers in a pair, from sample i0 on.
func (v *even) walkFurniture(ws *Workspace, out []lanes.Block, p *evenPair, i0 int, from *lanes.Progress) {
	f := &ws.strips.furniture
	n, z, class := len(f.Z), f.Z[1:], f.Class[1:]
	inverse, slope := v.inverse[i0+1:i0+n], v.ground.Slope[i0+1:i0+n]
	before := float32(i0+1) * lanes.Step
	if ws.refraction != nil {
		lanes.WalkBent(out, z, inverse, slope, class, v.strip.bent.At(1), p.tables, from, before, v.perBin)
		return
	}
	lanes.Walk(out, z, inverse, slope, class, p.tables, from, before, v.perBin)
}

// walkRaised is that of the engine, over the furnished ground and on to sample i2. What it returns begins
// with a sample before anything clear of the ground, so many after i0.
func (v *even) walkRaised(e *Engine, ws *Workspace, dst *Echo, i0, i2 int, horizon, fishZ float64) (hidden []float64, from int) {
	f, s := &ws.strips.furniture, &ws.strips.section
	if len(f.Raised) == 0 {
		return nil, 0
	}
	v.mixed = true
	near := math.Inf(1)
	for i := range f.Raised {
		near = min(near, f.Raised[i].G-f.Raised[i].Length/2)
	}
	from = min(max(int(near*lanes.PerMetre)-2-i0, 0), i2-1-i0, len(f.Z)-1)
	highest := float32(horizon)
	for i, z := range f.Z[1 : from+1] {
		if t := float32(z * v.inverse[i0+1+i]); t > highest {
			highest = t
		}
	}
	s.G, s.Z, s.Raised = v.steps[i0+from:i2+1], v.z[:i2+1-i0-from], f.Raised
	n := copy32(s.Z, f.Z[from:], fishZ)
	if i0+from+n <= i2 {
		copy32(s.Z[n:], v.ground.Z[i0+from+n:i2+1], fishZ)
	}
	return e.walkRaised(ws, s, dst, 1, float64(highest), fishZ), from
}

// copy32 sets heights to those over a datum, and says how many.
func copy32(dst []float64, z []float32, datum float64) int {
	z = z[:min(len(z), len(dst))]
	for i, h := range z {
		dst[i] = float64(h) + datum
	}
	return len(z)
}

// turn multiplies what furnished facets answer by what their corners make of it.
func (v *even) turn(ws *Workspace, blocks []lanes.Block) {
	st := &ws.strips
	f := &st.furniture
	for _, i := range st.turns {
		b, l := &blocks[(i-1)/lanes.Width], (i-1)%lanes.Width
		if b.First[l] == 0 && b.Second[l] == 0 {
			continue
		}
		times(blocks, i-1, st.turned(ws.lanes[0].strength, i, f.Z[i-1], f.Z[i], 0))
	}
}

// strengthen multiplies what objects answer by their boost.
func strengthen(e *Engine, blocks []lanes.Block, f *seabed.Furniture) {
	if e.boosts == nil {
		return
	}
	for i := 1; i < len(f.Z); i++ {
		if o := f.Object(i); o != 0 {
			times(blocks, i-1, e.boost(o))
		}
	}
}

// see notes the objects that answer and labels what they do.
func (v *even) see(ws *Workspace, dst *Echo, blocks []lanes.Block) {
	f := &ws.strips.furniture
	if ws.labels == nil && (dst == nil || f.All(dst.Lit)) {
		return
	}
	line := evenLine{f.First, f.Z, f.Class, &v.strip.bent}
	noted := uint16(0)
	for i := 1; i < len(f.Z); i++ {
		o := f.Object(i)
		if o == 0 || ws.labels == nil && o == noted {
			continue
		}
		b, l := &blocks[(i-1)/lanes.Width], (i-1)%lanes.Width
		if b.First[l] == 0 && b.Second[l] == 0 {
			continue
		}
		if dst != nil && o != noted {
			dst.note(o)
			noted = o
		}
		if ws.labels != nil && b.From[l] < float32(ws.bins) {
			ws.labelFacet(b, f.First+i, l, &line, o)
		}
	}
}

// aimStrip takes over the weights of the strip in some segments.
func (v *even) aimStrip(ws *Workspace, first, last int) {
	for c := range ws.lanes {
		p, i := v.of(c)
		for k := first; k <= last; k++ {
			p.strip[i][k] = float32(ws.lanes[c].strip[k])
		}
	}
}
