package plan

import "math"

// worst keeps the worst of a figure and where it was.
type worst struct {
	value float64
	at    Point
	line  string
	n     int // places asked
	bad   int // of them, beyond the limit
}

// low and high take a value that is worse the lower, or the higher, it is.
func (w *worst) low(v, limit float64, at Point, line string) {
	if w.n == 0 || v < w.value {
		w.value, w.at, w.line = v, at, line
	}
	w.n++
	if v < limit {
		w.bad++
	}
}

func (w *worst) high(v, limit float64, at Point, line string) {
	w.low(-v, -limit, at, line)
}

func (w *worst) share() float64 { return float64(w.bad) / float64(max(w.n, 1)) }

// walked holds the findings along a plan, the worst of each.
type walked struct {
	keel   worst // depth at low water under the vessel, turns too, metres
	fish   worst // depth of the fish at the least height wanted, metres
	cable  worst // wanted, metres
	winch  worst // speed it is asked for, m/s
	worked worst // height of the fish over the floor as the winch can keep it, metres
	low    worst // height at low water, share of the range scale
	high   worst // height with the cable there is, share of the range scale
	clear  worst // from what is to be kept clear of, beyond its radius, metres
	off    worst // to the side that the stream sets the fish, metres

	depth  float64 // at low water, summed over the places, metres
	places int
}

// checkStep is how far apart the places lie that are asked, metres.
const checkStep = 8.0

// keelWants and fishWants are the least depths at low water that vessel and fish are to have, metres.
func (c *crew) keelWants() float64 { return c.s.Draft + c.s.UnderKeel }
func (c *crew) fishWants() float64 { return c.s.Draft + c.s.UnderWake }

// walk goes along all lines, turns and run-ins of a plan.
func (c *crew) walk(p *Plan) *walked {
	w := &walked{}
	for i := range p.Lines {
		c.walkLine(p, &p.Lines[i], w)
	}
	for i := range p.Turns {
		c.walkTurn(p, &p.Turns[i], w)
	}
	if len(c.s.KeepOuts) > 0 {
		for i := range p.Lines {
			c.passKeepOuts(p, &p.Lines[i], w)
		}
	}
	return w
}

// walkLine asks at every place of a line where the depth is known, the runs before and after it for the keel alone.
func (c *crew) walkLine(p *Plan, l *Line, w *walked) {
	s := c.s
	held := held{now: math.NaN(), before: math.NaN()}
	for u := -p.RunIn; u <= l.Length()+p.RunOut; u += checkStep {
		at := l.on(u)
		d, known := s.Ground.DepthAt(at.X, at.Y)
		if !known {
			continue
		}
		lowest := d - s.LowWater
		w.keel.low(lowest, c.keelWants(), at, l.Name)
		if u < 0 || u > l.Length() {
			continue
		}
		w.depth, w.places = w.depth+lowest, w.places+1
		// The fish as high over the floor as is wanted, but never above the least depth.
		h := lowest - max(lowest-s.Height, c.fishWants())
		w.fish.low(lowest-s.LeastLow*s.Range, c.fishWants(), at, l.Name)
		w.low.low(h/s.Range, s.LeastLow-1e-9, at, l.Name)
		out := c.cables.at(d - s.Height) // at high water she needs no less
		if math.IsNaN(out) {
			w.cable.high(s.Gear.Cable.Length+1+d-s.Height-c.cables.most, s.Gear.Cable.Length, at, l.Name)
			// All the cable leaves the fish too high.
			w.high.high((d-c.cables.most)/s.Range, s.MostHigh, at, l.Name)
			held.before = math.NaN()
			continue
		}
		w.cable.high(out, s.Gear.Cable.Length, at, l.Name)
		w.high.high(h/s.Range, s.MostHigh, at, l.Name)
		if !math.IsNaN(held.before) {
			w.winch.high(math.Abs(out-held.before)/checkStep*s.Speed, s.Gear.Winch.Rate, at, l.Name)
		}
		w.worked.low(d-c.cables.depth(held.follow(out, s.Gear.Winch.Rate*checkStep/s.Speed)), 0.5*s.Height, at, l.Name)
	}
	w.off.high(math.Abs(Offset(p.Layback, s.Speed, s.Stream, s.StreamSet-l.bearing())), s.tolerance(), l.A, l.Name)
}

// held is the cable that a winch has out that follows what is wanted as fast as it can, and what was
// wanted at the place before, metres; NaN where there was none.
type held struct{ now, before float64 }

func (h *held) follow(wanted, most float64) float64 {
	h.before = wanted
	if math.IsNaN(h.now) {
		h.now = wanted
	}
	h.now += min(max(wanted-h.now, -most), most)
	return h.now
}

// walkTurn asks along the ways of vessel and fish through a turn.
func (c *crew) walkTurn(p *Plan, t *Turn, w *walked) {
	s, name := c.s, p.nameOf(t)
	ship, behind := c.ways(t, &p.Lines[t.After])
	for k := range ship {
		if d, known := s.Ground.DepthAt(ship[k].X, ship[k].Y); known {
			w.keel.low(d-s.LowWater, c.keelWants(), ship[k], name)
		}
		for j := range s.KeepOuts {
			o := &s.KeepOuts[j]
			w.clear.low(min(o.distance(ship[k]), o.distance(behind[k]))-o.Radius, 0, behind[k], name)
		}
	}
}

// passKeepOuts asks along a line, and as far before and after it as vessel or fish are straight, what is passed.
func (c *crew) passKeepOuts(p *Plan, l *Line, w *walked) {
	for u := -p.RunIn - p.Layback; u <= l.Length()+p.RunOut+p.Layback; u += checkStep {
		for j := range c.s.KeepOuts {
			o := &c.s.KeepOuts[j]
			w.clear.low(o.distance(l.on(u))-o.Radius, 0, l.on(u), l.Name)
		}
	}
}

// nameOf names a turn by the lines it lies between.
func (p *Plan) nameOf(t *Turn) string { return p.Lines[t.After].Name + " to " + p.Lines[t.Before].Name }
