package plan

import (
	"errors"
	"math"
	"slices"

	"dryline/vessel"
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
}

// row is what lies at one place across: one line, or its pieces.
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
	c := &crew{s: s, cables: newCables(&s.Gear, s.Speed, s.SheaveUp, deepest)}
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
		if fewest == 0 {
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

// cells groups the rows of a set so that within a group each row has one line that
// continues that of the row before: where rows part or join, groups begin and end
// (boustrophedon cells: H. Choset, Autonomous Robots 9, 247-253, 2000).
func cells(rows []*row) [][]*row {
	var done, open [][]*row
	overlap := func(a, b *Line) bool {
		f := along(a.bearing())
		a0, _ := f.to(a.A)
		a1, _ := f.to(a.B)
		b0, _ := f.to(b.A)
		b1, _ := f.to(b.B)
		return min(a1, max(b0, b1)) > max(a0, min(b0, b1))
	}
	for _, r := range rows {
		var next [][]*row
		used := make([]bool, len(open))
		for i := range r.lines {
			one := &row{kind: r.kind, part: r.part, number: r.number, lines: r.lines[i : i+1]}
			var on []int
			for k, cell := range open {
				if overlap(&cell[len(cell)-1].lines[0], &r.lines[i]) {
					on = append(on, k)
				}
			}
			alone := len(on) == 1
			for j := range r.lines {
				alone = alone && (j == i || !overlap(&open[on[0]][len(open[on[0]])-1].lines[0], &r.lines[j]))
			}
			if alone {
				used[on[0]] = true
				next = append(next, append(open[on[0]], one))
			} else {
				next = append(next, []*row{one})
			}
		}
		for k, cell := range open {
			if !used[k] {
				done = append(done, cell)
			}
		}
		open = next
	}
	return append(done, open...)
}

// pattern is the order of n rows in which neighbours lie about step rows apart: blocks
// of two steps, from one half of the block to the other and back.
func pattern(n, step int) []int {
	if step < 2 || n < 3 {
		out := make([]int, n)
		for i := range out {
			out[i] = i
		}
		return out
	}
	var out []int
	for from := 0; from < n; from += 2 * step {
		m := min(2*step, n-from)
		k := (m + 1) / 2
		var block []int
		for i := range k {
			block = append(block, from+i)
			if i+k < m {
				block = append(block, from+i+k)
			}
		}
		if from > 0 && m == 2*step { // begin with the middle of the block, a step from where the last one ended
			block = block[:0]
			for i := k - 1; i >= 0; i-- {
				block = append(block, from+i, from+i+k)
			}
		}
		out = append(out, block...)
	}
	return out
}

// order chooses how the rows of every set follow one another, and by what turns: the
// way round that meets nothing unsafe, and of those the shortest.
func (c *crew) order(p *Plan, sets [][]*row) {
	s := c.s
	kinds := s.Turns
	if len(kinds) == 0 {
		kinds = vessel.Turns()
	}
	longest := 0
	for _, set := range sets {
		longest = max(longest, len(set))
	}
	most := min(int(math.Ceil(2*s.TurnRadius/s.spacing()))+2, max(longest/2, 1))
	const dear = 1e6 // of a turn that is not safe
	best := math.Inf(1)
	try := func(sets [][]*row, step, first, variant int) {
		lines := c.sequence(sets, step, first, variant)
		for _, kind := range kinds {
			turns, length, unsafe := c.turns(lines, kind)
			if cost := length + dear*float64(unsafe); cost < best-0.01 {
				best = cost
				p.Lines, p.Turns, p.Turn, p.Pattern = lines, turns, kind, step
			}
		}
	}
	for step := 1; step <= max(most, 1); step++ {
		try(sets, step, 0, 0)
	}
	if s.Quick {
		return
	}
	// Where something is still unsafe it may help to begin elsewhere.
	const mostStarts = 12
	for first := 0; first < min(len(sets), mostStarts) && best >= dear; first++ {
		for variant := range 4 {
			try(sets, p.Pattern, first, variant)
		}
	}
	// Or to choose line by line which is next, and from which end.
	const mostLines = 80
	if best >= dear && len(p.Lines) <= mostLines {
		var single [][]*row
		for _, set := range sets {
			for k := range set {
				single = append(single, set[k:k+1])
			}
		}
		for first := range min(len(single), mostStarts/2) {
			for variant := range 2 {
				if best >= dear {
					try(single, 0, first, 2*variant)
				}
			}
		}
	}
}

// sequence runs every set by a pattern, one set after the other: it begins with one of them in
// one of four ways, and goes on with the nearest.
func (c *crew) sequence(sets [][]*row, step, first, variant int) []Line {
	var out []Line
	left := slices.Clone(sets)
	if len(left) > 0 {
		out = run(left[first], step, variant&1 == 1, variant&2 == 2)
		left = append(left[:first], left[first+1:]...)
	}
	for len(left) > 0 {
		pick, nearest := 0, math.Inf(1)
		var way []Line
		for k, set := range left {
			if k > 0 && set[0].kind != left[0][0].kind {
				continue // a second set waits for the first, cross-lines for both
			}
			for variant := range 4 {
				if len(set) == 1 && variant&1 == 1 {
					continue // one row begins where it ends
				}
				lines := run(set, step, variant&1 == 1, variant&2 == 2)
				if d := c.link(out[len(out)-1], lines[0]); d < nearest-0.01 {
					pick, nearest, way = k, d, lines
				}
			}
		}
		out = append(out, way...)
		left = append(left[:pick], left[pick+1:]...)
	}
	return out
}

// link is what it costs to go from one line to another, metres; dear where no turn is safe.
func (c *crew) link(from, to Line) float64 {
	best := math.Inf(1)
	for _, kind := range vessel.Turns() {
		_, length, unsafe := c.turns([]Line{from, to}, kind)
		best = min(best, length+1e5*float64(unsafe))
		if unsafe == 0 && kind == vessel.Simple {
			break // there is none shorter
		}
	}
	return best
}

// run is a set in the order and the directions it is run, every row the other way.
func run(set []*row, step int, fromEnd, reversed bool) (out []Line) {
	for i, k := range pattern(len(set), step) {
		if fromEnd {
			k = len(set) - 1 - k
		}
		lines := slices.Clone(set[k].lines)
		if (i%2 == 1) != reversed {
			slices.Reverse(lines)
			for j := range lines {
				lines[j].A, lines[j].B = lines[j].B, lines[j].A
			}
		}
		out = append(out, lines...)
	}
	return out
}

// turns lays the ways between lines, as the autopilot would, and says how long they are
// and how many are not safe.
func (c *crew) turns(lines []Line, kind vessel.Turn) (turns []Turn, length float64, unsafe int) {
	for i := 1; i < len(lines); i++ {
		before, after := &lines[i-1], &lines[i]
		end := before.on(before.Length() + c.s.RunOut + c.layback)
		start := after.on(-c.runIn - c.layback)
		t := Turn{After: i - 1, Before: i, Path: vessel.PlanTurn(kind,
			vessel.Waypoint{X: end.X, Y: end.Y, Bearing: before.bearing()},
			vessel.Waypoint{X: start.X, Y: start.Y, Bearing: after.bearing()}, c.s.TurnRadius)}
		ship, fish := c.ways(&t, before)
		for k := range ship {
			if t.Unsafe = c.unsafe(ship[k]); t.Unsafe == "" {
				t.Unsafe = c.unsafe(fish[k])
			}
			if t.Unsafe != "" {
				unsafe++
				break
			}
		}
		length += t.Path.Length()
		turns = append(turns, t)
	}
	return turns, length, unsafe
}

// ways are the ways of vessel and fish through a turn, a place every few metres.
func (c *crew) ways(t *Turn, before *Line) (ship, fish []Point) {
	const step = 6.0
	for s := 0.0; ; s += step {
		w, _ := t.Path.At(min(s, t.Path.Length()))
		ship = append(ship, Point{w.X, w.Y})
		if s >= t.Path.Length() {
			break
		}
	}
	return ship, chase(ship, c.layback, before.on(before.Length()+c.s.RunOut))
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
