package survey

import (
	"fmt"
	"math"
	"slices"
)

// Pass is one sighting of a contact: on the record of one run of a line.
type Pass struct {
	Line   string
	Run    int  // of all lines logged, from 1, in the order they were run
	ByHand bool // picked by a person
	Mark
}

// Mark is a point on the record, which stays true however the record is placed.
type Mark struct {
	Ping      uint64
	Starboard bool
	Slant     float64 // slant range by the sound speed of the watch, metres
	Ahead     float64 // of the ping's swath, metres
}

// markAt is the mark of a point on the ground on the record of a ping as it stands.
func (d *Desk) markAt(p *PingRecord, x, y float64) Mark {
	m := p.markAt(x, y)
	m.Slant /= d.Worked.stretch()
	return m
}

// ground is where a mark lies by a ping as it stands, metres.
func (d *Desk) ground(m Mark, p *PingRecord) (x, y float64) {
	m.Slant *= d.Worked.stretch()
	x, y, _ = m.Ground(p)
	return x, y
}

// markAt is the mark of a point on the ground on a ping's record.
func (p *PingRecord) markAt(x, y float64) Mark {
	along, across := p.offset(x, y)
	return Mark{Ping: p.Number, Starboard: across > 0, Slant: math.Hypot(across, p.Height), Ahead: along}
}

// Ground is where the mark lies on the ground by its ping, metres, and how far to the
// fish's right; both by the sound speed of the watch.
func (m Mark) Ground(p *PingRecord) (x, y, across float64) {
	across = math.Sqrt(max(m.Slant*m.Slant-p.Height*p.Height, 0))
	if !m.Starboard {
		across = -across
	}
	sin, cos := math.Sincos(p.Fix.Heading)
	east, north := p.Fix.leadAt(m.Slant)
	return p.Fix.X + east + m.Ahead*sin + across*cos, p.Fix.Y + north + m.Ahead*cos - across*sin, across
}

// passOf is the pass of a contact found on a line, which is the run of that number.
func (l *LineRecord) passOf(c *Contact, run int) []Pass {
	for i := range l.Pings {
		if p := &l.Pings[i]; p.Number == c.Ping {
			return []Pass{{Line: l.Name, Run: run, Mark: p.markAt(c.X, c.Y)}}
		}
	}
	return nil
}

// runOf numbers a line among all that were logged, from 1.
func (d *Desk) runOf(line *LineRecord) int {
	for i := range d.Lines {
		if line == d.run(d.Worked, i+1) {
			return i + 1
		}
	}
	return len(d.Lines) + 1
}

// see adds passes to those the contact was seen on, but for those it has.
func (c *Contact) see(passes []Pass) {
	for _, p := range passes {
		if !slices.ContainsFunc(c.Passes, func(q Pass) bool { return q.Run == p.Run }) {
			c.Passes = append(slices.Clone(c.Passes), p)
		}
	}
	slices.SortStableFunc(c.Passes, func(a, b Pass) int { return a.Run - b.Run })
}

// Sight says that a contact was seen at a point on the ground in a logged ping, on a
// pass besides its first; what was picked on that pass before is forgotten. The
// contact then lies at the mean of what a person picked (IHO C-13, chapter 4,
// 2.3.9.10, has contacts plotted from opposite directions and the mean taken).
func (d *Desk) Sight(number int, x, y float64, ping uint64) error {
	c := d.contact(number)
	if c == nil {
		return noContact(number)
	}
	line, p := d.logged(ping)
	if p == nil {
		return fmt.Errorf("ping %d is not on the log of a line", ping)
	}
	if r := math.Hypot(x-p.Fix.X, y-p.Fix.Y); r > line.RangeScale {
		return fmt.Errorf("the point is %.0f m from ping %d, beyond its range scale of %g m", r, ping, line.RangeScale)
	}
	before := *c
	run := d.runOf(line)
	c.Passes = slices.DeleteFunc(slices.Clone(c.Passes), func(q Pass) bool { return q.Run == run })
	c.see([]Pass{{Line: line.Name, Run: run, ByHand: true, Mark: d.markAt(p, x, y)}})
	if !slices.Contains(c.Lines, line.Name) {
		c.Lines = append(slices.Clone(c.Lines), line.Name)
	}
	sumX, sumY, n := 0.0, 0.0, 0.0
	for _, q := range c.Passes {
		if _, at := d.logged(q.Ping); q.ByHand && at != nil {
			east, north := d.ground(q.Mark, at)
			sumX, sumY, n = sumX+east, sumY+north, n+1
		}
	}
	c.X, c.Y = sumX/n, sumY/n
	d.did(change{what: sighted, before: before, after: *c})
	return nil
}

// unsee makes of the pass that one state of the contact has and another has not what
// the other has; passes that the lookout added since stay.
func (c *Contact) unsee(from, to Contact) {
	for _, p := range from.Passes {
		if !slices.Contains(to.Passes, p) {
			c.Passes = slices.DeleteFunc(slices.Clone(c.Passes), func(q Pass) bool { return q == p })
			if !slices.Contains(to.Lines, p.Line) {
				c.Lines = slices.DeleteFunc(slices.Clone(c.Lines), func(l string) bool { return l == p.Line })
			}
		}
	}
	for _, p := range to.Passes {
		if !slices.Contains(from.Passes, p) {
			c.see([]Pass{p})
			if !slices.Contains(c.Lines, p.Line) {
				c.Lines = append(slices.Clone(c.Lines), p.Line)
			}
		}
	}
	c.X, c.Y = to.X, to.Y
}

// Measure is one measure taken of a contact by hand, with its ends.
type Measure struct {
	What         Extent
	X, Y, X2, Y2 float64 // metres
	Metres       float64 // between them
	Line         string  // it was taken on, empty if that is not known
	Run          int     // see [Pass]
	Ping         uint64  // 0 if it is not known
	Height       float64 // of a shadow: of what casts it, metres; 0 if it is not known
	Pixel        float64 // of the picture it was taken on, metres on the ground; 0 if it is not known
}

// MeanHeight is the mean of the heights that shadows told on several passes, the last
// measured of each: a slope makes one side too high and the other too low (IHO C-13,
// chapter 4, 2.3.9.11). It is 0 if none did.
func (c *Contact) MeanHeight() float64 {
	h := c.Heights()
	if len(h) == 0 {
		return 0
	}
	sum := 0.0
	for _, v := range h {
		sum += v
	}
	return sum / float64(len(h))
}

// Heights are those that shadows told, one a pass, in the order of the passes.
func (c *Contact) Heights() []float64 {
	var last []Measure
	for _, m := range c.Measures {
		if m.What != Shadow {
			continue
		}
		last = slices.DeleteFunc(last, func(b Measure) bool { return b.Run == m.Run })
		last = append(last, m)
	}
	slices.SortStableFunc(last, func(a, b Measure) int { return a.Run - b.Run })
	var heights []float64
	for _, m := range last {
		if m.Height > 0 {
			heights = append(heights, m.Height)
		}
	}
	return heights
}

// FirstPing is the ping that a contact was seen in on its first pass, as the survey
// stands; nil for a contact that was seen on no record.
func (d *Desk) FirstPing(c *Contact) *PingRecord {
	ping := c.Ping
	if len(c.Passes) > 0 {
		ping = c.Passes[0].Ping
	}
	if ping == 0 {
		return nil
	}
	_, p := d.logged(ping)
	return p
}
