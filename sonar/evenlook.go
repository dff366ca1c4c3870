package sonar

import (
	"math"
	"math/bits"

	"dryline/seabed"
	"dryline/sonar/lanes"
)

// look reads labels and the grain of the ground off the blocks of a ray, and their bins
// before they are settled.
func (ws *Workspace) look(blocks []lanes.Block, fishZ float64) {
	switch grain, all := ws.even.grain(len(blocks)); {
	case !all:
		ws.lookByFacet(blocks)
	case grain > 0:
		ws.lookByBin(blocks, grain)
	}
	if ws.labels == nil {
		return
	}
	line := evenLine{0, ws.even.ground.Z, ws.even.ground.Class, &ws.even.bent}
	for k := range blocks {
		b := &blocks[k]
		for l := range lanes.Width {
			if b.First[l] != 0 && b.From[l] < float32(ws.bins) {
				ws.labelFacet(b, k*lanes.Width+l, l, &line, 0, fishZ)
			}
		}
	}
}

// halfBlock is as far as ground is of one class: that changes in the middle of a block or at
// its end.
const halfBlock = lanes.Width / 2

// grain is how many scatterers the first of the ground has, and whether all of it has as many.
func (v *even) grain(blocks int) (n float32, all bool) {
	n = scatterers[v.ground.Class[0]]
	for i := halfBlock; i < blocks*lanes.Width; i += halfBlock {
		if scatterers[v.ground.Class[i]] != n {
			return n, false
		}
	}
	return n, true
}

// lookByBin marks every bin in which anything answers.
func (ws *Workspace) lookByBin(blocks []lanes.Block, grain float32) {
	v := ws.even
	ws.coarse = true
	var before lanes.Bin
	for k := range ws.grain {
		b := v.bins[k]
		if b.First+b.Second+before.FirstNext+before.SecondNext != 0 {
			if g := ws.grain[k]; g == 0 || grain < g {
				ws.grain[k] = grain
			}
		}
		before = b
	}
	for k, mask := range v.long {
		for ; mask != 0; mask &= mask - 1 {
			b, l := &blocks[k], bits.TrailingZeros16(mask)
			ws.mark(int(b.From[l]), min(int(b.To[l]), ws.bins-1), grain)
		}
	}
}

// lookByFacet marks the bins of lit facets.
func (ws *Workspace) lookByFacet(blocks []lanes.Block) {
	var lit stretchLit
	for i := 0; i < len(blocks)*lanes.Width; i += halfBlock {
		n := scatterers[ws.even.ground.Class[i]]
		if n != lit.grain {
			lit.mark(ws)
			lit.grain = n
		}
		if n == 0 {
			continue
		}
		b := &blocks[i/lanes.Width]
		for l := i % lanes.Width; l < i%lanes.Width+halfBlock; l++ {
			if b.First[l] != 0 || b.Second[l] != 0 {
				lit.add(b.From[l], b.To[l])
			} else if lit.some {
				lit.mark(ws)
			}
		}
	}
	lit.mark(ws)
}

// stretchLit is facets one after another that are all lit, on ground with few scatterers:
// each begins at the slant range at which the last one ends.
type stretchLit struct {
	some     bool
	from, to float32 // bins
	grain    float32
}

func (s *stretchLit) add(from, to float32) {
	if !s.some {
		s.some, s.from, s.to = true, from, to
		return
	}
	if from < s.from {
		s.from = from
	}
	if to > s.to {
		s.to = to
	}
}

// mark marks their bins and begins anew.
func (s *stretchLit) mark(ws *Workspace) {
	if s.some && s.from < float32(ws.bins) {
		ws.mark(int(s.from), min(int(s.to), ws.bins-1), s.grain)
	}
	s.some = false
}

// evenLine is ground from a sample on, furnished or not.
type evenLine struct {
	first int
	z     []float32 // over the fish, metres
	class []uint8
	bent  *lanes.Bending
}

// labelFacet hands the lit facet that ends at sample i, place l of a block, to the labels. What it
// shows is worked out only if it is the strongest so far of one of its bins.
func (ws *Workspace) labelFacet(b *lanes.Block, i, l int, line *evenLine, object uint16, fishZ float64) {
	const shortest = 1e-3 // bins
	labels, lane := ws.labels, &ws.lanes[0]
	labels.spot.Object = object
	from, to := float64(b.From[l]), float64(b.To[l])
	ka, kb := int(from), min(int(to), ws.bins)
	energy := float64(b.First[l]) * lane.now[ka>>segmentShift]
	if ka == kb {
		if bins := labels.bins(lane); bins != nil {
			if energy > bins[ka].most {
				labels.spot = ws.shown(i, line, object, fishZ)
			}
			labels.takeWhole(lane, energy, ka)
		}
		return
	}
	wide := max(to-from, shortest)
	to = min(to, float64(ws.bins))
	x := energy / wide
	if labels.strongest(lane, x, ka, kb, from-float64(ka), to-float64(kb)) {
		labels.spot = ws.shown(i, line, object, fishZ)
	}
	labels.take(lane, x, ka, kb, from-float64(ka), to-float64(kb), to-from)
}

// shown is what the facet that ends at sample i shows, and where.
func (ws *Workspace) shown(i int, line *evenLine, object uint16, fishZ float64) Label {
	k := i - line.first
	g, drop := ws.even.steps[i], -float64(line.z[k])
	drop0 := drop
	if k > 0 {
		drop0 = -float64(line.z[k-1])
	}
	before, gm, dm, rise := g-lanes.Step, g-lanes.Step/2, (drop0+drop)/2, drop0-drop
	length := math.Sqrt(lanes.Step*lanes.Step + rise*rise)
	rm := (math.Sqrt(before*before+drop0*drop0) + math.Sqrt(g*g+drop*drop)) / 2
	if ws.refraction != nil {
		excess := float64(line.bent.Excess[k])
		if k > 0 {
			excess = (excess + float64(line.bent.Excess[k-1])) / 2
		}
		rm += excess
		arrive := dm/gm - float64(line.bent.Arrive[k])
		gm = rm / math.Sqrt(1+arrive*arrive)
		dm = arrive * gm
	}
	return spotAt(seabed.Class(line.class[k]), object, gm, fishZ-dm, (rise*gm+lanes.Step*dm)/(rm*length))
}
