package sonar

import (
	"math"
	"slices"
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
			if ws.evenly() {
				ws.even.findHorizon(ws)
			} else {
				e.findHorizon(ws, l.z)
			}
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
	st.things = st.things[:0]
	near, far := math.Inf(1), 0.0
	for i, span := range st.spans {
		if span.from <= place && place <= span.to {
			thing := st.standing.List[i]
			st.things = append(st.things, thing)
			near, far = min(near, thing.G0), max(far, thing.G1)
		}
	}
	n := len(ground.G)
	i0, _ := slices.BinarySearch(ground.G, near-margin)
	i0-- // the last step before
	i1, _ := slices.BinarySearch(ground.G, far+margin)
	i1 = min(i1, n-1)
	first, from := 0, belowFish(ground, l.z)
	if i0 >= 0 {
		first, from = 1, e.progressAt(ws, i0, l.z)
	}
	i0 = max(i0, 0)
	if i1 <= i0 {
		return
	}

	x, y, ux, uy := l.along(&e.fan, place)
	st.asked.Steps, st.asked.Fine = ground.G[i0:i1+1], e.bin
	floor.Furnish(&st.asked, st.things, ground.Z[i0:i1+1], ground.Slope[i0:i1+1], ground.Class[i0:i1+1], x, y, ux, uy)
	if len(st.asked.G) == i1+1-i0 && len(st.asked.Raised) == 0 && !slices.ContainsFunc(st.asked.Object, func(o uint16) bool { return o != 0 }) {
		return // nothing met after all
	}
	i2, top := ws.shadowEnd(i0, i1, l.z)
	// The ground and what stands on it have the same share of the beam at the same
	// ground range, which are different slant ranges.
	altitude := float64(ws.key) * altitudeStep
	foot := l.z - altitude
	if !e.weighStrip(ws, s, l.z, l.z-(max(top, foot)+foot)/2) {
		return
	}
	seen := dst
	if math.Abs(place) > 0.5 {
		seen = nil
	}
	section := &st.section
	hidden := e.walkRaised(ws, section, seen, first, from.horizon, l.z)
	if comes := st.throughOf(ground, through, i0); ws.evenly() {
		e.walkFurnished(ws, section, seen, first, from, i1, i2, l.z, hidden, comes)
	} else {
		e.walk(ws, section, seen, first, from, l.z, hidden, comes)
	}

	e.weighStrip(ws, s, l.z, altitude)
	if ws.evenly() {
		ws.even.takeBare(ws, i0+first, i2)
		return
	}
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
	e.walk(ws, &bare, nil, first, from, l.z, nil, through)
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
	if ws.evenly() {
		p.tangent = float64(ws.even.tangent(ws, i))
	}
	if ws.refraction != nil {
		p.r += float64(ws.refraction.at(g, drop-fishZ).excess)
	}
	return p
}

// shadowEnd makes the section of the strip: what was answered for the ground from
// step i0 to i1, and on to where the ground has risen above all of it, whose step
// it returns, with the height of the highest of it.
func (ws *Workspace) shadowEnd(i0, i1 int, fishZ float64) (i2 int, top float64) {
	st, ground := &ws.strips, &ws.section
	a, s := &st.asked, &st.section
	highest := math.Inf(-1)
	top = highest
	for i, g := range a.G {
		highest = max(highest, ws.elevation(g, a.Z[i], fishZ))
		if a.Object[i] != 0 {
			top = max(top, a.Z[i])
		}
	}
	for i := range a.Raised {
		q := newQuad(&a.Raised[i], fishZ)
		_, high := q.elevations()
		highest, top = max(highest, high), max(top, (a.Raised[i].Z0+a.Raised[i].Z1)/2)
	}
	rest, _ := slices.BinarySearch(st.horizon[i1:], highest)
	i2 = min(i1+rest, len(ground.G)-1)
	s.G = append(append(s.G[:0], a.G...), ground.G[i1+1:i2+1]...)
	s.Z = append(append(s.Z[:0], a.Z...), ground.Z[i1+1:i2+1]...)
	s.Slope = append(append(s.Slope[:0], a.Slope...), ground.Slope[i1+1:i2+1]...)
	s.Class = append(append(s.Class[:0], a.Class...), ground.Class[i1+1:i2+1]...)
	s.Object = append(append(s.Object[:0], a.Object...), ground.Object[i1+1:i2+1]...)
	s.Drawn, s.Raised = ground.Drawn, a.Raised
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
	ws.strips.first, ws.strips.last = first, last
	any := false
	for c, t := range e.channels {
		lane := &ws.lanes[c]
		e.weigh(lane.strip, t, s.from, s.to, altitude, first, last)
		lane.now = lane.strip
		for _, w := range lane.strip[first : last+1] {
			any = any || w > 1e-9*t.width
		}
	}
	return any
}

// throughOf is what comes through of the strip's facets, by those of the ground
// they lie on.
func (st *strips) throughOf(ground *Section, through []float64, i int) []float64 {
	if through == nil {
		return nil
	}
	st.through = st.through[:0]
	for _, g := range st.section.G {
		for i+1 < len(ground.G) && ground.G[i] < g {
			i++
		}
		st.through = append(st.through, through[i])
	}
	return st.through
}
