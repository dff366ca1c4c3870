package sonar

import (
	"math"
	"math/bits"

	"dryline/seabed"
	"dryline/sonar/lanes"
)

// look reads labels and the grain of the ground off the blocks of a ray, and their bins
// before they are settled.
func (ws *Workspace) look(blocks []lanes.Block) {
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
	labels, now := ws.labels, ws.lanes[0].now
	for k := range blocks {
		b := &blocks[k]
		for l := range lanes.Width {
			if b.First[l] == 0 || b.From[l] >= float32(ws.bins) {
				continue
			}
			bin := int(b.From[l])
			if int(b.To[l]) != bin || !labels.apart {
				ws.labelFacet(b, k*lanes.Width+l, l, &line, 0)
				continue
			}
			// Most facets lie in one bin, and few are the strongest there: as labelFacet does, in short.
			energy := float64(b.First[l]) * now[bin>>segmentShift]
			labels.bare[bin] += energy
			labels.bare[bin+1] -= energy
			if s := &labels.floor[bin]; energy > s.most {
				i := k*lanes.Width + l
				s.most, s.Label, s.sight = energy, Label{Class: seabed.Class(line.class[i])}, ws.sightOf(i, &line)
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

// labelFacet hands the lit facet that ends at sample i, place l of a block, to the labels.
func (ws *Workspace) labelFacet(b *lanes.Block, i, l int, line *evenLine, object uint16) {
	const shortest = 1e-3 // bins
	labels, lane := ws.labels, &ws.lanes[0]
	labels.spot, labels.sight = Label{Class: seabed.Class(line.class[i-line.first]), Object: object}, ws.sightOf(i, line)

	from, to := float64(b.From[l]), float64(b.To[l])
	ka, kb := int(from), min(int(to), ws.bins)
	if energy := float64(b.First[l]) * lane.now[ka>>segmentShift]; ka == kb {
		labels.takeWhole(lane, energy, ka)
	} else {
		x := energy / max(to-from, shortest)
		to = min(to, float64(ws.bins))
		labels.take(lane, x, ka, kb, from-float64(ka), to-float64(kb), to-from)
	}
	labels.sight = sight{}
}

// sightOf is what is to be known of the facet that ends at sample i.
func (ws *Workspace) sightOf(i int, line *evenLine) sight {
	k := i - line.first
	at := sight{sample: int32(i + 1), z0: line.z[max(k-1, 0)], z1: line.z[k]}
	if ws.refraction != nil {
		at.excess, at.arrive = (line.bent.Excess[max(k-1, 0)]+line.bent.Excess[k])/2, line.bent.Arrive[k]
	}
	return at
}

// shown is what the strongest part of a bin shows, and where.
func (ws *Workspace) shown(s *strongest, fishZ float64) Label {
	at := &s.sight
	if at.sample == 0 {
		return s.Label // known when it was deposited
	}
	g := ws.even.steps[at.sample-1]
	drop0, drop := -float64(at.z0), -float64(at.z1)
	before, gm, dm, rise := g-lanes.Step, g-lanes.Step/2, (drop0+drop)/2, drop0-drop
	length := math.Sqrt(lanes.Step*lanes.Step + rise*rise)
	rm := (math.Sqrt(before*before+drop0*drop0) + math.Sqrt(g*g+drop*drop)) / 2
	if ws.refraction != nil {
		rm += float64(at.excess)
		arrive := dm/gm - float64(at.arrive)
		gm = rm / math.Sqrt(1+arrive*arrive)
		dm = arrive * gm
	}
	return spotAt(s.Class, s.Object, gm, fishZ-dm, (rise*gm+lanes.Step*dm)/(rm*length))
}
