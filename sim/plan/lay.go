package plan

import (
	"errors"
	"math"
)

// crew knows what gear and water allow; it lays lines.
type crew struct {
	s       *Spec
	cables  cables
	cable   float64
	layback float64
	runIn   float64
	spare   float64 // kept free beyond run-ins and run-outs, for turns, metres
	need    float64 // depth at low water that the vessel and the tow need, metres
	off     error   // why the work was called off
}

// step is called from piece to piece of the work; it reports whether that was called off.
func (c *crew) step() bool {
	if c.off == nil && c.s.Step != nil {
		c.off = c.s.Step()
	}
	return c.off != nil
}

// row holds what lies at one place across: one line, or its pieces.
type row struct {
	kind   Kind
	part   int
	number int
	lines  []Line
}

func newCrew(s *Spec) (*crew, error) {
	mean, deepest, n := 0.0, 0.0, 0
	s.eachPlace(func(p Point) {
		if d, ok := s.Ground.DepthAt(p.X, p.Y); ok {
			mean, deepest, n = mean+d, max(deepest, d), n+1
		}
	})
	if n == 0 {
		return nil, errors.New("nothing is known of the depth in the area")
	}
	mean /= float64(n)
	c := &crew{s: s, cables: s.cablesTo(deepest)}
	c.cable, _ = CableFor(&s.Gear, s.Speed, s.SheaveUp, min(max(mean-s.Height, s.Draft+s.UnderWake), c.cables.most))
	c.layback = s.Gear.Steady(s.Speed, c.cable, s.SheaveUp).Layback + s.SheaveAft
	c.runIn = s.RunIn
	if c.runIn < 0 {
		c.runIn = math.Ceil(max(RunInFor(c.layback, s.tolerance()), 30)/5) * 5
	}
	c.need = max(s.Draft+s.UnderKeel, s.Draft+s.UnderWake+s.LeastLow*s.Range)
	return c, nil
}

// eachPlace calls f with places strewn evenly over what is to be surveyed.
func (s *Spec) eachPlace(f func(Point)) {
	for i := range s.Parts {
		x0, y0, x1, y1 := box(s.Parts[i].Outer)
		d := max(5, math.Sqrt((x1-x0)*(y1-y0))/120)
		for y := y0 + d/2; y < y1; y += d {
			for x := x0 + d/2; x < x1; x += d {
				if p := (Point{x, y}); s.Parts[i].Contains(p) {
					f(p)
				}
			}
		}
	}
	for i := 1; i < len(s.Route); i++ {
		l := Line{A: s.Route[i-1], B: s.Route[i]}
		for u := 0.0; u <= l.Length(); u += 5 {
			f(l.on(u))
		}
	}
}

// lay lays the lines along a bearing and puts them in order. Where turns do not stay in
// safe water lines end earlier, by one turning circle after another; what is lost by it shows
// in the coverage.
func (c *crew) lay(bearing float64) (best *Plan) {
	fewest := math.MaxInt
	for circles := range 4 {
		c.spare = float64(circles) * c.s.TurnRadius
		p := c.layOnce(bearing)
		unsafe := 0
		for i := range p.Turns {
			if p.Turns[i].Unsafe != "" {
				unsafe++
			}
		}
		if len(p.Lines) > 0 && unsafe < fewest || best == nil {
			best, fewest = p, unsafe
		}
		if fewest == 0 || c.off != nil {
			break
		}
	}
	return best
}

func (c *crew) layOnce(bearing float64) *Plan {
	s := c.s
	p := &Plan{Spec: s, Bearing: half(bearing), Spacing: s.spacing(), Gap: s.gap(), RunIn: c.runIn, RunOut: s.RunOut, Layback: c.layback, Cable: c.cable}
	var rows []*row
	var sets [][]*row // rows that are run together, in order across
	parts := max(len(s.Parts), 1)
	if len(s.Parts) == 0 {
		set := c.corridor()
		rows, sets = set, [][]*row{set}
	}
	for i := range s.Parts {
		first, second := c.over(i, bearing)
		cross := c.across(i, bearing)
		rows = append(append(append(rows, first...), second...), cross...)
		sets = append(append(append(sets, cells(first)...), cells(second)...), cells(cross)...)
	}
	names(rows, parts)
	c.order(p, sets)
	c.measure(p)
	return p
}

// over lays the rows over one part, and those of the second set.
func (c *crew) over(part int, bearing float64) (first, second []*row) {
	s, f, area := c.s, along(bearing), &c.s.Parts[part]
	low, high := area.across(f)
	space := s.spacing()
	n := max(int(math.Ceil((high-low)/space-1e-9)), 1)
	from := (low + high - float64(n-1)*space) / 2
	lo, hi := 0, n
	if s.Edges {
		lo, hi = -1, n+1
	}
	add := func(set []*row, kind Kind, number int, v, v0, v1 float64) []*row {
		r := &row{kind: kind, part: part, number: number}
		for _, sp := range merge(area.strip(f, v0, v1), c.joins()) {
			r.lines = append(r.lines, c.cut(f, v, sp)...)
		}
		for i := range r.lines {
			r.lines[i].Kind = kind
		}
		if len(r.lines) == 0 {
			return set
		}
		return append(set, r)
	}
	for i := lo; i < hi; i++ {
		v := from + float64(i)*space
		kind, v0, v1 := Main, v-space/2, v+space/2
		if i < 0 {
			kind, v0, v1 = Edge, low-1, v+space
		} else if i >= n {
			kind, v0, v1 = Edge, v-space, high+1
		}
		first = add(first, kind, i-lo+1, v, v0, v1)
		if s.Nadir == Interleave && i+1 < hi {
			v += space / 2
			second = add(second, Second, i-lo+1, v, max(v-space/2, low-1), min(v+space/2, high+1))
		}
	}
	return first, second
}

// joins is the gap in a line that is run across rather than turned for, metres.
func (c *crew) joins() float64 { return c.runIn + c.s.RunOut + 2*c.layback }

// across lays cross-lines over a part.
func (c *crew) across(part int, bearing float64) (set []*row) {
	if c.s.Cross <= 0 {
		return nil
	}
	f, area := along(bearing+math.Pi/2), &c.s.Parts[part]
	low, high := area.across(f)
	n := max(int(math.Round((high-low)/c.s.Cross)), 1)
	for i := range n {
		v := low + (high-low)*(float64(i)+0.5)/float64(n)
		r := &row{kind: Across, part: part, number: i + 1}
		for _, sp := range merge(area.scan(f, v), c.joins()) {
			r.lines = append(r.lines, c.cut(f, v, sp)...)
		}
		for k := range r.lines {
			r.lines[k].Kind = Across
		}
		if len(r.lines) > 0 {
			set = append(set, r)
		}
	}
	return set
}

// corridor lays rows beside the route, a line to each of its legs. On the outside of a
// bend lines reach on until they meet.
func (c *crew) corridor() (set []*row) {
	s, space := c.s, c.s.spacing()
	n := max(int(math.Ceil(2*s.Half/space-1e-9)), 1)
	lo, hi := 0, n
	if s.Edges {
		lo, hi = -1, n+1
	}
	for i := lo; i < hi; i++ {
		off := -float64(n-1)/2*space + float64(i)*space
		r := &row{kind: Main, number: i - lo + 1}
		if i < 0 || i >= n {
			r.kind = Edge
		}
		for k := 1; k < len(s.Route); k++ {
			leg := Line{A: s.Route[k-1], B: s.Route[k]}
			f := along(leg.bearing())
			u0, v := f.to(leg.A)
			u1, _ := f.to(leg.B)
			bend := func(other float64) float64 { // how far on the outside of a bend
				turn := math.Remainder(other-leg.bearing(), 2*math.Pi)
				return min(math.Abs(s.Half*math.Tan(turn/2)), 2*s.Half)
			}
			if k > 1 {
				before := Line{A: s.Route[k-2], B: s.Route[k-1]}
				u0 -= bend(before.bearing())
			}
			if k+1 < len(s.Route) {
				after := Line{A: s.Route[k], B: s.Route[k+1]}
				u1 += bend(after.bearing())
			}
			r.lines = append(r.lines, c.cut(f, v+off, span{u0, u1})...)
		}
		for k := range r.lines {
			r.lines[k].Kind = r.kind
		}
		if len(r.lines) > 0 {
			set = append(set, r)
		}
	}
	return set
}

// shortest is the least length worth a line, metres.
const shortest = 40

// cut takes from a line what cannot be run: where run-in, line or run-out would come
// upon shallow or unknown water, or near what is to be kept clear of.
func (c *crew) cut(f frame, v float64, sp span) []Line {
	const step = 4.0
	room := max(c.runIn, c.s.RunOut) + c.layback + c.spare
	var bad []span
	for u := sp.from - room; u <= sp.to+room; u += step {
		if c.unsafe(f.from(u, v)) != "" {
			bad = append(bad, span{u - step - room, u + step + room})
		}
	}
	at := sp.from
	var out []Line
	add := func(to float64) {
		if to-at >= min(shortest, sp.to-sp.from) {
			out = append(out, Line{A: f.from(at, v), B: f.from(to, v)})
		}
	}
	for _, b := range merge(bad, 0) {
		if b.to <= at || b.from >= sp.to {
			continue
		}
		add(min(b.from, sp.to))
		at = max(at, b.to)
	}
	if at < sp.to {
		add(sp.to)
	}
	return out
}

// unsafe says why a place is none for vessel and tow, or nothing.
func (c *crew) unsafe(p Point) string {
	d, known := c.s.Ground.DepthAt(p.X, p.Y)
	switch {
	case !known:
		return "unknown depth"
	case d-c.s.LowWater < c.need:
		return "shallow water"
	}
	for i := range c.s.KeepOuts {
		if k := &c.s.KeepOuts[i]; k.distance(p) < k.Radius {
			return k.Name
		}
	}
	return ""
}

// start is the cable that keeps the fish at its height over the shallowest of the first run-in, metres.
func (c *crew) start(p *Plan) float64 {
	least := math.Inf(1)
	for u := -c.runIn - 3*c.layback; u <= c.layback; u += 4 {
		at := p.Lines[0].on(u)
		if d, known := c.s.Ground.DepthAt(at.X, at.Y); known {
			least = min(least, d-c.s.LowWater)
		}
	}
	if math.IsInf(least, 1) {
		return p.Cable
	}
	out, _ := CableFor(&c.s.Gear, c.s.Speed, c.s.SheaveUp, max(least-c.s.Height, 0))
	return min(out, p.Cable)
}

// measure adds up the lengths. All of a plan's way is run at one speed over ground.
func (c *crew) measure(p *Plan) {
	for i := range p.Lines {
		p.LineLength += p.Lines[i].Length()
	}
	for i := range p.Turns {
		p.Between += p.Turns[i].Path.Length() + p.RunOut + p.RunIn + 2*p.Layback
	}
	p.Time = (p.LineLength + p.Between) / p.Spec.Speed
}
