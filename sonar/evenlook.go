package sonar

import (
	"math"

	"dryline/seabed"
	"dryline/sonar/lanes"
)

// look reads labels and the grain of the ground off the blocks of a ray.
func (ws *Workspace) look(blocks []lanes.Block, fishZ float64) {
	v := ws.even
	const half = lanes.Width / 2 // the class changes in the middle of a block or at its end
	var lit stretchLit
	for k := range blocks {
		b, classes := &blocks[k], v.ground.Class[k*lanes.Width:(k+1)*lanes.Width]
		for _, from := range [...]int{0, half} {
			n := scatterers[classes[from]]
			if n != lit.grain {
				lit.mark(ws)
				lit.grain = n
			}
			if n == 0 {
				continue
			}
			for l := from; l < from+half; l++ {
				if b.First[l] != 0 || b.Second[l] != 0 {
					lit.add(b.From[l], b.To[l])
				} else if lit.some {
					lit.mark(ws)
				}
			}
		}
		if ws.labels == nil {
			continue
		}
		for l := range lanes.Width {
			if b.First[l] != 0 && b.From[l] < float32(ws.bins) {
				ws.labelFacet(b, k*lanes.Width+l, fishZ)
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

// labelFacet hands a lit facet of open ground to the labels.
func (ws *Workspace) labelFacet(b *lanes.Block, i int, fishZ float64) {
	v, l := ws.even, i%lanes.Width
	g, drop := v.steps[i], -float64(v.ground.Z[i])
	drop0 := drop
	if i > 0 {
		drop0 = -float64(v.ground.Z[i-1])
	}
	gm, dm, rise := g-lanes.Step/2, (drop0+drop)/2, drop0-drop
	length := math.Hypot(lanes.Step, rise)
	rm := (math.Hypot(g-lanes.Step, drop0) + math.Hypot(g, drop)) / 2
	if ws.refraction != nil {
		excess := float64(v.bent.Excess[i])
		if i > 0 {
			excess = (excess + float64(v.bent.Excess[i-1])) / 2
		}
		rm += excess
		arrive := dm/gm - float64(v.bent.Arrive[i])
		gm = rm / math.Sqrt(1+arrive*arrive)
		dm = arrive * gm
	}
	ws.labels.spot = spotAt(seabed.Class(v.ground.Class[i]), 0, gm, fishZ-dm, (rise*gm+lanes.Step*dm)/(rm*length))

	const shortest = 1e-3 // bins
	from, to := float64(b.From[l]), float64(b.To[l])
	to = max(to, from+shortest)
	density := float64(b.First[l]) / (to - from)
	to = min(to, float64(ws.bins))
	ka, kb := int(from), int(to)
	x := density * ws.lanes[0].now[ka>>segmentShift]
	ws.labels.take(&ws.lanes[0], x, ka, kb, from-float64(ka), to-float64(kb), to-from)
}
