package seabed

import "math"

// laySediments says what every node is made of and gives the ground the longer waves
// of its roughness: those of the sediment, going over softly at borders.
func (w *World) laySediments(t *tile, s *scratch, x0, y0 float64) {
	for n := range t.surface {
		if t.surface[n].class&outcropMark == 0 {
			t.surface[n].class = w.spec.Base
		}
	}
	w.roughenBase(s, x0, y0)
	hidden := w.hidden(&s.outline, x0, y0)
	for k := range w.spec.Patches {
		p := &w.spec.Patches[k]
		if p.Class == Unset {
			continue
		}
		if p.Marks.Kind != "" {
			w.layMarks(t, k, s, x0, y0)
			continue
		}
		if p.Area.misses(x0, y0) {
			continue
		}
		s.outline.lay(&p.Area, x0, y0)
		present, near := s.outline.weigh(&s.c, &s.soft, x0, y0, edgeWidth, edgeMix, &w.patches[k].areaNoise)
		if near {
			s.soft.nodes(&s.weight, 0, tileSide)
			w.roughen(s, p.Class, x0, y0)
		}
		if present && k >= hidden {
			s.c.nodes(&s.weight, 0, tileSide)
			w.layPatch(t, k, s, x0, y0)
		}
	}
	for n := range t.surface {
		t.surface[n].class &^= outcropMark
		t.z[n] += s.rough[n]
	}
}

// hidden is the first patch that shows: those before lie below one that covers the tile whole.
func (w *World) hidden(o *outline, x0, y0 float64) int {
	for k := len(w.spec.Patches) - 1; k > 0; k-- {
		p := &w.spec.Patches[k]
		if p.Class == Unset || p.Marks.Kind != "" || p.Area.Bare > 0 {
			continue
		}
		if o.lay(&p.Area, x0, y0); o.level && o.distance > 0 {
			return k
		}
	}
	return 0
}

// layPatch lays a patch of sediment where its weights say.
func (w *World) layPatch(t *tile, k int, s *scratch, x0, y0 float64) {
	class := w.spec.Patches[k].Class
	border := &s.border
	w.fabric.border(border, k, x0, y0)
	for j := range tileSide {
		weight := (*[tileSide]float32)(s.weight[j*tileSide:])
		from, to := 0, tileSide // columns where the patch goes over into others
		for from < to && (weight[from] <= 0 || weight[from] >= 1) {
			from++
		}
		for from < to && (weight[to-1] <= 0 || weight[to-1] >= 1) {
			to--
		}
		border.line(j, from, to)
		y := y0 + float64(j-tileMargin)*nodeStep
		for i, a := range weight {
			surface := &t.surface[j*tileSide+i]
			if a <= 0 || surface.class&outcropMark != 0 {
				continue
			}
			// The edge of a patch is no line: lobes and islands at every scale, and at
			// the least grains that mix.
			if a >= 1 || float64(a) > 0.5+0.22*float64(border.strays[i])+0.1*(dither(x0+float64(i-tileMargin)*nodeStep, y)-0.5) {
				surface.class = class
			}
		}
	}
}

// outcropMark keeps laySediments from covering bare rock; it is cleared there.
const outcropMark Class = 0x80

// roughenBase begins the roughness with the longer waves of what lies below all patches.
func (w *World) roughenBase(s *scratch, x0, y0 float64) {
	if w.spec.Featureless {
		clear(s.rough[:])
		return
	}
	class := w.spec.Base
	s.long.lay(&w.fabric.long, class, x0, y0)
	rms := float32(w.rms[class.ground()])
	for j := range tileSide {
		rough := (*[tileSide]float32)(s.rough[j*tileSide:])
		s.long.line(rough, j, 0, tileSide)
		for i := range rough {
			rough[i] *= rms
		}
	}
}

// roughen lays a sediment's longer waves over those there are, by weight, so that the
// variance goes from one to the other.
func (w *World) roughen(s *scratch, class Class, x0, y0 float64) {
	if w.spec.Featureless {
		return
	}
	s.long.lay(&w.fabric.long, class, x0, y0)
	rms := float32(w.rms[class.ground()])
	var own [tileSide]float32
	for j := range tileSide {
		weight, rough := (*[tileSide]float32)(s.weight[j*tileSide:]), (*[tileSide]float32)(s.rough[j*tileSide:])
		from, to := 0, tileSide // columns where there is any
		for from < to && weight[from] <= 0 {
			from++
		}
		for from < to && weight[to-1] <= 0 {
			to--
		}
		s.long.line(&own, j, from, to)
		for i := from; i < to; i++ {
			share := weight[i]
			switch {
			case share >= 1:
				rough[i] += rms*own[i] - rough[i]
			case share > 0:
				rough[i] += share * (rms*own[i] - rough[i])
				rough[i] /= float32(math.Sqrt(float64(1 - 2*share*(1-share))))
			}
		}
	}
}

// The edges of sediments are at least this soft, in metres and in the noise that
// thins them out: structure needs some room.
const (
	edgeWidth = 2.0
	edgeMix   = 0.25
)

// dither is a fixed noise in 0..1 at a node, the same whichever tile holds it.
func dither(x, y float64) float64 {
	i, j := uint32(int32(x*nodesPerM)), uint32(int32(y*nodesPerM))
	h := i*0x9e3779b1 ^ j*0x85ebca77
	h = (h ^ h>>15) * 0x2c1b3c6d
	h = (h ^ h>>12) * 0x297a2d39
	return float64(h^h>>15) / (1 << 32)
}
