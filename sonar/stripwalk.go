package sonar

import (
	"math"
	"slices"

	"dryline/seabed"
	"dryline/sonar/lanes"
)

// walkStrips walks the strips in the cell of a ray whose ground has been traced
// and walked.
func (e *Engine) walkStrips(ws *Workspace, floor Furnished, dst *Echo, ray int, l *gaze, through []float64) {
	st := &ws.strips
	st.known = false
	for ; st.next < len(st.list); st.next++ {
		s := st.list[st.next]
		if s.from > e.fan.edges[ray+1]-1e-9 {
			return
		}
		if !st.known {
			e.findHorizon(ws, l.z)
			st.known = true
		}
		e.walkStrip(ws, floor, dst, s, l, through)
	}
}

// findHorizon works out how high the ground of the ray has risen by each step.
func (e *Engine) findHorizon(ws *Workspace, fishZ float64) {
	s := &ws.section
	h := ws.strips.horizon[:0]
	highest := math.Inf(-1)
	for i, g := range s.G {
		highest = max(highest, ws.elevation(g, s.Z[i], fishZ))
		h = append(h, highest)
	}
	ws.strips.horizon = h
}

// elevation is the tangent of that of a point, as a walk reckons it.
func (ws *Workspace) elevation(g, z, fishZ float64) float64 {
	tangent := (z - fishZ) / g
	if ws.refraction != nil {
		tangent += float64(ws.refraction.at(g, -z).launch)
	}
	return tangent
}

func (e *Engine) walkStrip(ws *Workspace, floor Furnished, dst *Echo, s band, l *gaze, through []float64) {
	st, ground := &ws.strips, &ws.section
	place := (s.from + s.to) / 2
	st.meet(place)
	if math.Abs(place) > mainLobe {
		dst = nil
	}
	x, y, ux, uy := l.along(&e.fan, place)
	for things := st.things; len(things) > 0; {
		var i0, i2, n int
		var top float64
		for n < len(things) { // and what stands in the shadow of the others
			more := together(things, ground.G[i2])
			if more == n {
				break
			}
			n, i2 = more, 0
			floor.Furnish(&st.furniture, things[:n], x, y, ux, uy, st.samples, 0)
			if len(st.furniture.Z) == 0 {
				continue // nothing met after all
			}
			var i1 int
			if i0, i1 = e.furnish(ws, l.z); i1 > i0 {
				i2, top = ws.shadowEnd(i1, l.z)
			}
		}
		if i2 > 0 {
			e.walkSection(ws, dst, s, l.z, top, i0, i2, through)
		}
		things = things[n:]
	}
}

// walkSection adds what a strip answers over its section, as high as top, and takes its ground away, from step i0 to i2.
func (e *Engine) walkSection(ws *Workspace, dst *Echo, s band, fishZ, top float64, i0, i2 int, through []float64) {
	st, ground := &ws.strips, &ws.section
	// The ground and what stands on it have the same share of the beam at the same
	// ground range, which are different slant ranges.
	altitude := float64(ws.key) * altitudeStep
	if !e.weighStrip(ws, s, fishZ, standingAltitude(altitude, top-fishZ)) {
		return
	}
	section := &st.section
	from := e.progressAt(ws, i0, fishZ)
	hidden := e.walkRaised(ws, section, dst, 1, from.horizon, fishZ)
	e.walk(ws, section, dst, 1, from, fishZ, hidden, st.throughOf(ground, through, i0))

	e.weighStrip(ws, s, fishZ, altitude)
	for c := range ws.lanes {
		for k, w := range ws.lanes[c].strip {
			ws.lanes[c].strip[k] = -(1 - shadowFill) * w
		}
	}
	bare := Section{G: ground.G[i0 : i2+1], Z: ground.Z[i0 : i2+1], Drawn: ground.Drawn, Slope: ground.Slope[i0 : i2+1], Class: ground.Class[i0 : i2+1], Object: ground.Object[i0 : i2+1]}
	if through != nil {
		through = through[i0 : i2+1]
	}
	if ws.labels != nil {
		ws.labels.removes = true
	}
	e.walk(ws, &bare, nil, 1, from, fishZ, nil, through)
	if ws.labels != nil {
		ws.labels.removes = false
	}
}

// progressAt is how far the walk of the ground had come at a step.
func (e *Engine) progressAt(ws *Workspace, i int, fishZ float64) progress {
	s := &ws.section
	g, drop := s.G[i], fishZ-s.Z[i]
	p := progress{g: g, drop: drop, r: math.Sqrt(g*g + drop*drop), horizon: ws.strips.horizon[i]}
	p.tangent = ws.elevation(g, s.Z[i], fishZ)
	if ws.refraction != nil {
		p.r += float64(ws.refraction.at(g, drop-fishZ).excess)
	}
	return p
}

// furnish makes the section of the strip: the ground from the last of its steps before the
// furniture to the first after it, at both and at every sample of the furniture between them. It
// works out the factors of its facets.
func (e *Engine) furnish(ws *Workspace, fishZ float64) (i0, i1 int) {
	st, ground := &ws.strips, &ws.section
	f, s := &st.furniture, &st.section
	at := func(k int) float64 { return float64(f.First+k+1) * lanes.Step }
	const least = 1e-6
	i0, _ = slices.BinarySearch(ground.G, at(0)+least)
	i0 = max(i0-1, 0)
	i1, _ = slices.BinarySearch(ground.G, at(len(f.Z)-1)-least)
	i1 = min(i1, len(ground.G)-1)
	s.G, s.Z, s.Slope, s.Class, s.Object = s.G[:0], s.Z[:0], s.Slope[:0], s.Class[:0], s.Object[:0]
	put := func(g, z, slope float64, class seabed.Class) {
		s.G, s.Z, s.Slope = append(s.G, g), append(s.Z, z), append(s.Slope, slope)
		s.Class, s.Object = append(s.Class, class), append(s.Object, 0)
	}
	put(ground.G[i0], ground.Z[i0], ground.Slope[i0], ground.Class[i0])
	i, sample := i0, -1 // the first sample of the section less one
	for k := range f.Z {
		g := at(k)
		for i+1 < i1 && ground.G[i+1] <= g {
			i++
		}
		share := min(max((g-ground.G[i])/(ground.G[i+1]-ground.G[i]), 0), 1)
		z := ground.Z[i] + share*(ground.Z[i+1]-ground.Z[i])
		class := ground.Class[i+1]
		if share == 0 {
			class = ground.Class[i]
		}
		f.Z[k], f.Class[k] = float32(z), uint8(class)
		switch {
		case g < ground.G[i0]+least:
			sample = k
		case g < ground.G[i1]-least:
			put(g, z, ground.Slope[i]+share*(ground.Slope[i+1]-ground.Slope[i]), class)
		}
	}
	f.Raise()
	st.factors = st.factors[:0]
	for n := range s.G {
		st.factors = append(st.factors, 1)
		if k := sample + n; n > 0 && f.Object(k) != 0 {
			s.Z[n], s.Class[n], s.Object[n] = float64(f.Z[k]), seabed.Class(f.Class[k]), f.Object(k)
		}
	}
	st.turns = f.Turns(st.turns[:0])
	for _, k := range st.turns {
		if n := k - sample; n > 0 && n < len(s.G) {
			st.factors[n] = st.turned(ws.lanes[0].strength, k, f.Z[k-1], f.Z[k], fishZ)
		}
	}
	if i1 > i0 {
		put(ground.G[i1], ground.Z[i1], ground.Slope[i1], ground.Class[i1])
	}
	return i0, i1
}

// shadowEnd carries the section of the strip on from the ground's step i1 to where that has risen
// above all of it, whose step it returns, with the height of the highest of what stands there.
func (ws *Workspace) shadowEnd(i1 int, fishZ float64) (i2 int, top float64) {
	st, ground := &ws.strips, &ws.section
	s := &st.section
	highest := math.Inf(-1)
	top = highest
	for i, g := range s.G {
		highest = max(highest, ws.elevation(g, s.Z[i], fishZ))
		if s.Object[i] != 0 {
			top = max(top, s.Z[i])
		}
	}
	s.Raised = st.furniture.Raised
	for i := range s.Raised {
		q := newQuad(&s.Raised[i], fishZ)
		_, high := q.elevations()
		highest, top = max(highest, high), max(top, (s.Raised[i].Z0+s.Raised[i].Z1)/2)
	}
	rest, _ := slices.BinarySearch(st.horizon[i1:], highest)
	i2 = min(i1+rest, len(ground.G)-1)
	s.G = append(s.G, ground.G[i1+1:i2+1]...)
	s.Z = append(s.Z, ground.Z[i1+1:i2+1]...)
	s.Slope = append(s.Slope, ground.Slope[i1+1:i2+1]...)
	s.Class = append(s.Class, ground.Class[i1+1:i2+1]...)
	s.Object = append(s.Object, ground.Object[i1+1:i2+1]...)
	s.Drawn = ground.Drawn
	return i2, top
}

// weighStrip aims at the strip as it lies an altitude below the fish, and reports
// whether any of a beam lies there.
func (e *Engine) weighStrip(ws *Workspace, s band, fishZ, altitude float64) bool {
	section := &ws.strips.section
	near, far := math.Inf(1), 0.0
	extend := func(g, z float64) {
		r2 := g*g + (z-fishZ)*(z-fishZ)
		near, far = min(near, r2), max(far, r2)
	}
	for i, g := range section.G {
		extend(g, section.Z[i])
	}
	for _, p := range section.Raised {
		g := max(p.G-p.Length/2, 0)
		extend(g, p.Z0)
		extend(g, p.Z1)
		if p.Z0 < fishZ && p.Z1 > fishZ {
			extend(g, fishZ)
		}
		extend(g+p.Length, p.Z0)
		extend(g+p.Length, p.Z1)
	}
	const more = 2 // bins that an echo may be spread beyond
	segment := func(r float64) int {
		return min(max(int(r/e.bin), 0)>>segmentShift, ws.segments-1)
	}
	first, last := segment(math.Sqrt(near)-more*e.bin-1), segment(math.Sqrt(far)+more*e.bin+1)
	return e.weighBand(ws, s, altitude, first, last)
}

// throughOf returns what is left of what the strip's facets answer: what comes through, by those of the
// ground they lie on, and their factors.
func (st *strips) throughOf(ground *Section, through []float64, i int) []float64 {
	st.through = st.through[:0]
	for k, g := range st.section.G {
		x := 1.0
		for i+1 < len(ground.G) && ground.G[i] < g {
			i++
		}
		if through != nil {
			x = through[i]
		}
		if k < len(st.factors) {
			x *= st.factors[k]
		}
		st.through = append(st.through, x)
	}
	return st.through
}
