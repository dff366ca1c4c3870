package seabed

import (
	"math"
	"math/rand/v2"
)

// patchState holds what a patch of sediment is drawn from.
type patchState struct {
	areaNoise
	marks []mark
}

// mark is one shape of a sediment on another.
type mark struct {
	kind          MarkKind
	at            Point // its middle; of a comet its head
	sin, cos      float64
	length, width float64
	depth         float64 // of what is sunk; below 0 the height of what is heaped
	flip          float64 // 1 or -1: on which side its sharp edge is
}

func newMarks(rng *rand.Rand, p *Patch, spec *Spec) []mark {
	m := &p.Marks
	if m.Kind == "" {
		return nil
	}
	if m.Kind == Trails {
		return newTrails(rng, p, spec)
	}
	var marks []mark
	for _, at := range scatter(rng, &p.Area, spec.East, spec.North, m.Count) {
		size := math.Exp(0.35 * rng.NormFloat64()) // lognormal: few large, many small
		turn := 0.08 * rng.NormFloat64()
		one := mark{kind: m.Kind, at: at, length: m.Length * size, width: m.Width * size, depth: m.Depth, flip: 1}
		switch m.Kind {
		case Discs, Blots:
			one.width = one.length * (0.85 + 0.15*rng.Float64())
			turn = 2 * math.Pi * rng.Float64()
		case Comets:
			one.width = m.Width * math.Sqrt(size)
		case Heaps: // of the size they were ordered in
			one.length, one.width, one.depth = m.Length, m.Width, -m.Height
		}
		one.sin, one.cos = math.Sincos(m.Along + turn)
		marks = append(marks, one)
	}
	return marks
}

// newTrails are comets in the lee of objects, as wide as those are across the current.
func newTrails(rng *rand.Rand, p *Patch, spec *Spec) []mark {
	var marks []mark
	for i := range spec.Objects {
		size, turn := math.Exp(0.35*rng.NormFloat64()), 0.05*rng.NormFloat64()
		o := spec.Objects[i].Whole()
		if !p.Area.Contains(o.At) {
			continue
		}
		one := mark{kind: Comets, at: o.At, length: p.Marks.Length * size, flip: 1}
		askew := o.Heading - p.Marks.Along
		one.width = max(math.Hypot(o.Length*math.Sin(askew), o.Width*math.Cos(askew)), 1)
		one.sin, one.cos = math.Sincos(p.Marks.Along + turn)
		marks = append(marks, one)
	}
	return marks
}

// reach bounds the mark in plan, metres from its place.
func (m *mark) reach() float64 {
	if m.kind == Comets {
		return m.length + 2*m.width
	}
	return max(m.length, m.width)*0.75 + 0.5*m.width + 2
}

// span is the size of a mark that its outline is bent by, metres, and bend how much, as
// a share of it. ragged is how much the structure of borders counts along it.
func (m *mark) span() float64 {
	if m.kind == Discs || m.kind == Blots {
		return m.length
	}
	return m.width
}

func (m *mark) bend() float64 {
	switch m.kind {
	case Discs:
		return 0.1
	case Comets:
		return 0.15
	case Heaps:
		return 0.06
	}
	return 0.35
}

func (m *mark) ragged() float64 {
	switch m.kind {
	case Blots:
		return 0.35
	case Heaps:
		return 0
	}
	return 0.15
}

// heapSlope is the run of a heap's side for each metre of its height: stones dumped
// from a ship come to rest at about 1 in 2.5 (common practice, no source).
const heapSlope = 2.5

// cover is how much of the ground at a place is the mark's: the sediment shows where it
// is over a half, give or take an edge. sink is how far into a depression it lies, or up
// a heap, 0..1.
func (m *mark) cover(x, y float64) (share, sink float64) {
	dx, dy := x-m.at.X, y-m.at.Y
	along, across := dx*m.sin+dy*m.cos, dx*m.cos-dy*m.sin
	switch m.kind {
	case Comets:
		// The tail narrows and thins out; ahead of the head there is a rounded front.
		u := along / m.length
		half := m.width / 2 * (1 - 0.6*u)
		if u < 0 {
			return ramp((m.width/2-math.Hypot(along, across))/1 + 0.5), 0
		}
		return ramp((half-math.Abs(across))/1+0.5) * (1 - u*u) * 0.95, 0
	case Depressions:
		// An ellipse; up the current its edge is a step, down it the sediment thins out
		// over a third of the width.
		d := (1 - math.Hypot(2*along/m.length, 2*across/m.width)) * m.width / 2
		soft := 0.6 + ramp(across*m.flip/(0.2*m.width)+0.5)*0.33*m.width
		share = ramp(d/soft + 0.5)
		return share, ramp(d/(2*soft) + 0.25)
	case Heaps:
		// A ridge with round ends. Of the stones that roll beyond its foot there are ever
		// fewer: three nodes in ten at the foot, a third of that every 0.6 m.
		past := max(math.Abs(along)-max(m.length-m.width, 0)/2, 0)
		d := m.width/2 - math.Hypot(past, across)
		if d < 0 {
			return 0.5 + ditherShare*(0.3*math.Exp(d/0.6)-0.5), 0
		}
		return 1, min(d/min(-heapSlope*m.depth, m.width/2), 1)
	case Blots:
		d := (1 - math.Hypot(2*along/m.length, 2*across/m.width)) * m.length / 2
		return ramp(d/(0.6*m.length) + 0.5), 0
	}
	d := (1 - math.Hypot(2*along/m.length, 2*across/m.width)) * m.length / 2
	return ramp(d/(0.25*m.length) + 0.5), 0
}

// ditherShare is how much mere chance counts along the edges of marks.
const ditherShare = 0.35

// layMarks lays a patch's marks into a tile.
func (w *World) layMarks(t *tile, k int, s *scratch, x0, y0 float64) {
	p := &w.spec.Patches[k]
	known, noise := false, w.patches[k].noise
	for i := range w.patches[k].marks {
		m := &w.patches[k].marks[i]
		r, ragged := m.reach(), m.ragged()
		if m.at.X+r < x0-1 || m.at.X-r > x0+tileSize+1 || m.at.Y+r < y0-1 || m.at.Y-r > y0+tileSize+1 {
			continue
		}
		if !known {
			w.fabric.border(&s.border, k, x0, y0)
			s.border.spread(&s.edge)
			known = true
		}
		eachNodeIn(x0, y0, m.at.X-r, m.at.Y-r, m.at.X+r, m.at.Y+r, func(n int, x, y float64) {
			// No outline is an ellipse: it is bent by a slow noise.
			k := 1.6 / m.span()
			bent := m.bend() * m.span()
			share, sink := m.cover(x+bent*noise.Eval2(x*k, y*k), y+bent*noise.Eval2(x*k+70, y*k))
			if share <= 0 {
				return
			}
			t.z[n] -= float32(m.depth * sink)
			if t.surface[n].class&outcropMark == 0 && share > 0.5+ragged*float64(s.edge[n])+ditherShare*(dither(x, y)-0.5) {
				t.surface[n].class = p.Class
			}
		})
	}
}
