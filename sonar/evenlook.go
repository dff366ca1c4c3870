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
	if ws.labels != nil {
		ws.lookAtFloor(blocks)
	}
}

// lookAtFloor hands the lit facets of a ray over bare ground to the labels. As labelFacet does it, facet for facet, but that
// what the strongest of a bin shows is worked out once the ray has been gone through.
func (ws *Workspace) lookAtFloor(blocks []lanes.Block) {
	labels, now := ws.labels, ws.lanes[0].now
	floor, bare, strongest := labels.floor, labels.bare, labels.sample
	end, bins := float32(ws.bins), ws.bins
	low, high := bins, 0
	for k := range blocks {
		b := &blocks[k]
		for l := range lanes.Width {
			if b.First[l] == 0 || b.From[l] >= end {
				continue
			}
			sample := int32(k*lanes.Width + l + 1)
			from, to := float64(b.From[l]), float64(b.To[l])
			ka, kb := int(from), min(int(to), bins)
			low, high = min(low, ka), max(high, kb)
			energy := float64(b.First[l]) * now[ka>>segmentShift]
			if ka == kb {
				if energy > floor[ka].most {
					floor[ka].most, strongest[ka] = energy, sample
				}
				bare[ka] += energy
				bare[ka+1] -= energy
				continue
			}
			x := energy / max(to-from, shortestEcho)
			to = min(to, float64(bins))
			fa, fb := from-float64(ka), to-float64(kb)
			if part := x * (1 - fa); part > floor[ka].most {
				floor[ka].most, strongest[ka] = part, sample
			}
			for k := ka + 1; k < kb; k++ {
				if x > floor[k].most {
					floor[k].most, strongest[k] = x, sample
				}
			}
			if part := x * fb; kb < bins && part > floor[kb].most {
				floor[kb].most, strongest[kb] = part, sample
			}
			bare[ka] += x * (1 - fa)
			bare[ka+1] += x * fa
			bare[kb] -= x * (1 - fb)
			bare[kb+1] -= x * fb
		}
	}
	line := evenLine{0, ws.even.ground.Z, ws.even.ground.Class, &ws.even.bent}
	for k := low; k <= min(high, bins-1); k++ {
		if at := int(strongest[k]) - 1; at >= 0 {
			s := &floor[k]
			s.Class, s.sight = seabed.Class(line.class[at]), ws.sightOf(at, &line)
			strongest[k] = 0
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

// shortestEcho of a facet is what its energy is spread over at least, bins.
const shortestEcho = 1e-3

// labelFacet hands the lit facet that ends at sample i, place l of a block, to the labels.
func (ws *Workspace) labelFacet(b *lanes.Block, i, l int, line *evenLine, object uint16) {
	labels, lane := ws.labels, &ws.lanes[0]
	labels.spot, labels.sight = Label{Class: seabed.Class(line.class[i-line.first]), Object: object}, ws.sightOf(i, line)

	from, to := float64(b.From[l]), float64(b.To[l])
	ka, kb := int(from), min(int(to), ws.bins)
	if energy := float64(b.First[l]) * lane.now[ka>>segmentShift]; ka == kb {
		labels.takeWhole(lane, energy, ka)
	} else {
		x := energy / max(to-from, shortestEcho)
		to = min(to, float64(ws.bins))
		labels.take(lane, x, ka, kb, from-float64(ka), to-float64(kb), to-from)
	}
	labels.sight = sight{}
}

// sightOf gathers what is to be known of the facet that ends at sample i.
func (ws *Workspace) sightOf(i int, line *evenLine) sight {
	k := i - line.first
	at := sight{sample: int32(i + 1), z0: line.z[max(k-1, 0)], z1: line.z[k]}
	if ws.refraction != nil {
		at.excess, at.arrive = (line.bent.Excess[max(k-1, 0)]+line.bent.Excess[k])/2, line.bent.Arrive[k]
	}
	return at
}

// shown says what the strongest part of a bin shows, and where.
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
