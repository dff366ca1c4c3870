package seabed

// Corner is a place on the surface of a thing along a ray.
type Corner struct{ G, Z float64 } // ground range, and height over the datum of the Furniture

const (
	lowEdge   = 1.5 // metres: the side of anything higher leans too little from one sample to the next to matter
	roundest  = 0.4 // metres along the ray: the top of anything longer is as round as its samples say
	roundness = 4   // pieces that a step over such a top is cut into
	hair      = 2e-4
)

// Between appends where the surface turns on its way from sample i-1, which lies at z0, to sample i of
// the lists, ascending: at the foot and the head of the side of something low, and over a small round
// top. Nothing where the straight line does, as nearly everywhere.
func (f *Furniture) Between(dst []Corner, i int, z0 float32) []Corner {
	if i == 0 || f.by[i] == 0 {
		return dst
	}
	c := f.crossed[f.by[i]-1]
	s := &f.world.parts[c.part]
	to := float64(f.First+i+1) * evenStep
	from, end := to-evenStep, min(to, c.to)
	side := c.from > from && f.Z[i]-z0 < lowEdge
	round := f.round(int(f.by[i] - 1))
	if !side && !round {
		return dst
	}
	p, step := onPart(s, f.x, f.y, f.ux, f.uy, f.datum)
	if c.from > from {
		from = min(c.from, to)
		if z, ok := p.after(step, min(from+hair, (from+end)/2)).top(s); ok {
			dst = append(dst, Corner{from, float64(z0)}, Corner{from, z})
		}
	}
	if !round {
		return dst
	}
	for k := 1; k <= roundness; k++ {
		g := from + (end-from)*float64(k)/roundness
		if g > to-hair {
			break
		}
		if z, ok := p.after(step, min(g, c.to-hair)).top(s); ok {
			dst = append(dst, Corner{g, z})
		}
	}
	return dst
}

// Turns appends the samples of the lists before which Between has something to say at all.
func (f *Furniture) Turns(dst []int) []int {
	for _, t := range f.turns {
		if t.sample > 0 && f.by[t.sample] == t.crossed+1 {
			dst = append(dst, int(t.sample))
		}
	}
	return dst
}

// round reports whether what is crossed is small and round across its top.
func (f *Furniture) round(k int) bool {
	c := &f.crossed[k]
	if c.to-c.from >= roundest {
		return false
	}
	switch f.world.parts[c.part].solid.(type) {
	case roller, ball, ring, stone:
		return true
	}
	return false
}
