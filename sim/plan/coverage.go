package plan

import "math"

// Coverage sums up what the lines see of the area, by geometry: straight lines, the fish on
// them, every place from the gap to the reach seen. Cross-lines are not counted.
type Coverage struct {
	Cell   float64 // metres
	X0, Y0 float64 // corner of the first cell
	NX, NY int
	Looks  []int8 // of a cell; -1 outside of the area
	Under  []bool // of a cell, whether a fish goes over it
	Once   float64
	Twice  float64 // shares of the area seen once at least, twice at least
	Gap    float64 // share that lies under a fish and is seen from nowhere else
	Lost   float64 // share that no line reaches
	Square float64 // the area, m^2
}

// cover counts the looks of a plan.
func cover(p *Plan) Coverage {
	const mostCells = 60_000
	s := p.Spec
	parts := s.Parts
	if len(parts) == 0 {
		parts = s.legs()
	}
	c := Coverage{}
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i := range parts {
		a0, b0, a1, b1 := box(parts[i].Outer)
		x0, y0, x1, y1 = min(x0, a0), min(y0, b0), max(x1, a1), max(y1, b1)
	}
	c.Cell = max(math.Sqrt((x1-x0)*(y1-y0)/mostCells), 2)
	c.X0, c.Y0 = x0, y0
	c.NX, c.NY = int(math.Ceil((x1-x0)/c.Cell)), int(math.Ceil((y1-y0)/c.Cell))
	c.Looks, c.Under = make([]int8, c.NX*c.NY), make([]bool, c.NX*c.NY)
	reach := s.reach()
	if s.SoundSpeed != nil {
		reach = min(reach, RangeLimit(s.SoundSpeed, max(p.MeanLow-s.Height, 0.5), p.MeanLow, s.Range))
	}
	type seer struct {
		f      frame
		u0, u1 float64
		v      float64
	}
	var seers []seer
	for i := range p.Lines {
		if p.Lines[i].Kind == Across {
			continue
		}
		f := along(p.Lines[i].bearing())
		u0, v := f.to(p.Lines[i].A)
		u1, _ := f.to(p.Lines[i].B)
		seers = append(seers, seer{f, u0, u1, v})
	}
	cells := 0
	for k := range c.Looks {
		at := Point{c.X0 + (float64(k%c.NX)+0.5)*c.Cell, c.Y0 + (float64(k/c.NX)+0.5)*c.Cell}
		c.Looks[k] = -1
		for i := range parts {
			if parts[i].Contains(at) {
				c.Looks[k] = 0
				break
			}
		}
		if c.Looks[k] < 0 {
			continue
		}
		cells++
		under := false
		for _, l := range seers {
			u, v := l.f.to(at)
			if u < l.u0 || u > l.u1 {
				continue
			}
			switch d := math.Abs(v - l.v); {
			case d < p.Gap:
				under = true
			case d <= reach && c.Looks[k] < math.MaxInt8:
				c.Looks[k]++
			}
		}
		c.Under[k] = under
		switch {
		case c.Looks[k] > 1:
			c.Once++
			c.Twice++
		case c.Looks[k] == 1:
			c.Once++
		case under:
			c.Gap++
		default:
			c.Lost++
		}
	}
	n := float64(max(cells, 1))
	c.Once, c.Twice, c.Gap, c.Lost = c.Once/n, c.Twice/n, c.Gap/n, c.Lost/n
	c.Square = float64(cells) * c.Cell * c.Cell
	return c
}

// legs are the legs of a corridor as areas.
func (s *Spec) legs() (parts []Part) {
	for i := 1; i < len(s.Route); i++ {
		l := Line{A: s.Route[i-1], B: s.Route[i]}
		f := along(l.bearing())
		u0, v := f.to(l.A)
		u1, _ := f.to(l.B)
		parts = append(parts, Part{Outer: []Point{f.from(u0, v-s.Half), f.from(u1, v-s.Half), f.from(u1, v+s.Half), f.from(u0, v+s.Half)}})
	}
	return parts
}
