package plan

import (
	"fmt"
	"math"

	"dryline/vessel/tow"
)

// In a turn the fish cuts the corner: it goes slower through the water than the vessel and
// sinks, the more the longer the layback is against the radius. On a steady circle a body on a
// line L behind a vessel on a radius R goes round on sqrt(R2 - L2) and not at all for L >= R; turns of ships
// are shorter than that takes to come about, so the tow itself is flown through each.

// hauls are the shares of the cable that may be hauled in before a turn: steps of our own choice.
var hauls = []float64{0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6}

// sinking is the least height of the fish over the floor in a turn, and where.
type sinking struct {
	low  float64 // metres; +Inf where nothing is known of the depth
	at   Point
	turn int
}

// sink flies the tow through the turns of a plan, for each share of the cable that may be
// hauled in before them until the fish keeps half its height, and says which share that
// was and the least height with none and with it. Without an answer it is the share that leaves the fish highest.
func (c *crew) sink(p *Plan) (share float64, without, with sinking) {
	turns := make([]int, len(p.Turns))
	for i := range turns {
		turns[i] = i
	}
	if c.s.Quick {
		turns = c.longest(p)
	}
	want := 0.5 * c.s.Height
	with.low = math.Inf(-1)
	shares := hauls
	if c.s.Quick {
		shares = []float64{0, 0.3, 0.6}
	}
	for _, h := range shares {
		worst := sinking{low: math.Inf(1)}
		left := turns[:0:0]
		for _, i := range turns {
			if c.step() {
				return share, without, with
			}
			s := c.through(p, i, h, nil)
			if s.low < worst.low {
				worst = s
			}
			if s.low < want {
				left = append(left, i) // the others are higher still on less cable
			}
		}
		if h == 0 {
			without = worst
		}
		if worst.low > with.low {
			share, with = h, worst
		}
		if len(left) == 0 {
			break
		}
		turns = left
	}
	return share, without, with
}

// checkSink asks that the fish keeps off the floor in turns, and takes down what is hauled in for it.
func (c *crew) checkSink(p *Plan, add adder) {
	share, without, with := c.sink(p)
	p.TurnHaul, p.TurnLow = share, with.low
	if math.IsInf(with.low, 0) {
		return // no turn, or nothing is known of the depth there
	}
	t := &p.Turns[with.turn]
	at := worst{at: with.at, line: p.nameOf(t)}
	says := fmt.Sprintf("In turns, in which it sinks, the fish keeps %.1f m over the floor", with.low)
	switch {
	case share > 0 && without.low < 0:
		says += fmt.Sprintf(" if %.0f %% of the cable is hauled in before each; with none hauled in it would strike", 100*share)
	case share > 0:
		says += fmt.Sprintf(" if %.0f %% of the cable is hauled in before each; with none hauled in %.1f m", 100*share, without.low)
	}
	state := Holds
	switch {
	case with.low < leastClear:
		state = Fails
		says = fmt.Sprintf("In turns the fish sinks to within %.1f m of the floor whatever is hauled in before: turn wider, fly higher, or run into deeper water", max(with.low, 0))
	case with.low < 0.5*c.s.Height:
		state = Watch
	}
	add("sink", state, &at, with.low, "m", 0.5*c.s.Height, "%s", says)
}

// longest is the turn before which most cable is out.
func (c *crew) longest(p *Plan) []int {
	best, most := -1, 0.0
	for i := range p.Turns {
		before := &p.Lines[p.Turns[i].After]
		if out := c.cableAt(before.B); out > most {
			best, most = i, out
		}
	}
	if best < 0 {
		return nil
	}
	return []int{best}
}

// cableAt is the cable out that tows the fish at its height over a place, all of it where that
// does not reach.
func (c *crew) cableAt(p Point) float64 {
	d, known := c.s.Ground.DepthAt(p.X, p.Y)
	if !known {
		return c.cable
	}
	out := c.cables.at(max(d-c.s.Height, c.s.Draft+c.s.UnderWake))
	if math.IsNaN(out) {
		return c.s.Gear.Cable.Length
	}
	return out
}

// through flies the tow through a turn at the speed of the plan, from the end of one line to
// the start of the next: a share of the cable is hauled in from where the log goes off, and cable for the
// next line paid out from where the run-in begins; between and after the winch is worked by the height of the fish. The stream is the predicted one; no waves, and the
// vessel keeps her speed and her way. see is shown the fish and its height from place to place, or nil.
func (c *crew) through(p *Plan, turn int, share float64, see func(at Point, fish, height float64)) sinking {
	const dt = 0.5
	s, t := c.s, &p.Turns[turn]
	before, after := &p.Lines[t.After], &p.Lines[t.Before]
	leaving, between := s.RunOut, t.Path.Length()
	joining := c.runIn + 2*c.layback
	place := func(u float64) (x, y, bearing float64) {
		switch {
		case u < leaving:
			q := before.on(before.Length() + c.layback + u)
			return q.X, q.Y, before.bearing()
		case u < leaving+between:
			w, _ := t.Path.At(u - leaving)
			return w.X, w.Y, w.Bearing
		}
		q := after.on(-c.runIn - c.layback + u - leaving - between)
		return q.X, q.Y, after.bearing()
	}
	sheave := func(u float64) (x, y float64) {
		x, y, b := place(u)
		sin, cos := math.Sincos(b)
		return x - s.SheaveAft*sin, y - s.SheaveAft*cos
	}
	out := c.cableAt(before.B)
	x, y := sheave(0)
	sin, cos := math.Sincos(before.bearing())
	stream := evenStream{s.Stream * math.Sin(s.StreamSet), s.Stream * math.Cos(s.StreamSet)}
	vx, vy := s.Speed*sin-stream.east, s.Speed*cos-stream.north
	g := tow.New(s.Gear, s.SheaveUp, out, math.Hypot(vx, vy), x, y, math.Atan2(vx, vy))
	g.Ordered = max(out*(1-share), s.Gear.Winch.Min)
	low := sinking{low: math.Inf(1), turn: turn}
	paid, next, band := share == 0, 0.0, max(0.15*s.Height, 0.3)
	for u := 0.0; u <= leaving+between+joining; u += s.Speed * dt {
		if !paid && u >= leaving+between {
			paid = true
			g.Ordered = c.cableAt(Point{g.X, g.Y})
			next = u + s.Speed*tow.SettlesIn(g.Ordered, s.Speed)
		}
		x, y := sheave(u)
		g.Step(dt, x, y, stream, math.Inf(-1))
		d, known := s.Ground.DepthAt(g.X, g.Y)
		if !known {
			continue
		}
		h := d - g.Depth
		if see != nil {
			see(Point{g.X, g.Y}, g.Depth, h)
		}
		if h < low.low {
			low.low, low.at = h, Point{g.X, g.Y}
		}
		if miss := h - s.Height; u >= next && math.Abs(miss) > band && (paid || miss < 0) {
			g.Ordered = max(min(g.CableOut+tow.CableToCorrect(miss, g.CableOut, g.Depth), s.Gear.Cable.Length), s.Gear.Winch.Min)
			next = u + s.Speed*tow.SettlesIn(g.CableOut, s.Speed)
		}
	}
	return low
}

// evenStream is the same at every depth.
type evenStream struct{ east, north float64 }

func (e evenStream) Current(float64) (east, north float64) { return e.east, e.north }
