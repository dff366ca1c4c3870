package seabed

// Corner is a place on the surface of a thing along a ray.
type Corner struct{ G, Z float64 } // ground range, and height over the datum of the Furniture

const (
	lowEdge   = 1.5  // metres: the side of anything higher leans too little from one sample to the next to matter
	steepStep = 0.03 // metres: a rise from one sample to the next that may be a side
	halvings  = 2    // of a step in search of one
	roundest  = 0.4  // metres along the ray: the top of anything longer is as round as its samples say
	roundness = 4    // pieces that a step over such a top is cut into
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
	steep := f.Z[i]-z0 > steepStep && f.Z[i]-z0 < lowEdge
	if !side && !round && !steep {
		return dst
	}
	p, step := onPart(s, f.x, f.y, f.ux, f.uy, f.datum)
	begun := len(dst)
	if c.from > from {
		from = min(c.from, to)
		if z, ok := p.after(step, min(from+hair, (from+end)/2)).top(s); ok {
			dst = append(dst, Corner{from, float64(z0)}, Corner{from, z})
		}
	}
	if !round {
		if len(dst) == begun && steep {
			dst = halve(dst, s, p, step, Corner{from, float64(z0)}, Corner{to, float64(f.Z[i])})
		}
		return dst
	}
	for k := 1; k <= roundness; k++ {
		g := from + (end-from)*float64(k)/roundness
		if g > to-hair {
			break
		}
		if z, ok := p.after(step, min(g, c.to-hair)).top(s); ok {
			dst = append(dst, Corner{g, z})
		} else if len(dst) == begun || dst[len(dst)-1].Z == float64(z0) { // not there yet
			dst = append(dst, Corner{g, float64(z0)})
		}
	}
	return dst
}

// halve appends what lies between two places on a part, closest where it rises most: half way, and half way again in
// the steeper half.
func halve(dst []Corner, s *placedPart, p, step partPlace, a, b Corner) []Corner {
	foot := a.Z
	var above [halvings]Corner
	n := 0
	for range halvings {
		middle := Corner{(a.G + b.G) / 2, foot}
		if z, ok := p.after(step, middle.G).top(s); ok {
			middle.Z = max(z, foot)
		}
		if b.Z-middle.Z > middle.Z-a.Z {
			dst, a = append(dst, middle), middle
		} else {
			above[n], b = middle, middle
			n++
		}
	}
	for n > 0 {
		n--
		dst = append(dst, above[n])
	}
	return dst
}

// mayTurn notes a sample before which the surface of what is crossed may turn.
func (f *Furniture) mayTurn(k, i int) {
	if n := len(f.turns); n > 0 && f.turns[n-1].crossed == int32(k) && f.turns[n-1].sample >= int32(i) {
		return
	}
	f.turns = append(f.turns, turn{int32(i), int32(k)})
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
	case roller, ball, ring, *stone:
		return true
	}
	return false
}
