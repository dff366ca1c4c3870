package crew

import (
	"slices"
	"time"

	"dryline/sim"
	"dryline/sim/order"
)

// LookAgain mans the session of this crew, which is over, anew to look at it: it is
// flown again to a tick by its own orders and by the record that was kept of it, and
// goes on by the same orders for as long as time passes. It takes no others. In a
// browser no record is kept, and its pings are made anew.
func (c *Crew) LookAgain(tick int64, apart bool) (*Crew, error) {
	next, err := c.anew()
	if err != nil {
		return nil, err
	}
	next.looking = true
	next.until = min(max(tick, 0), c.session.Ticks())
	return next.start(apart), nil
}

// TryAgain mans a practice session that begins at a tick of this crew's session, which
// is over: with the same exercise and seeds, and by the orders given before that
// tick, those of the very beginning always among them. It never counts, and its log
// says what it was tried again from.
func (c *Crew) TryAgain(tick int64, apart bool) (*Crew, error) {
	next, err := c.anew()
	if err != nil {
		return nil, err
	}
	tick = min(max(tick, 1), max(c.session.Ticks()-1, 0))
	n := slices.IndexFunc(next.script, func(o order.Command) bool { return o.Tick >= max(tick, 1) || o.Do == order.Finish })
	if n >= 0 {
		next.script = next.script[:n:n]
	}
	next.until = tick
	next.session.Attempt = order.Attempt{
		Trainee: c.session.Attempt.Trainee, Started: time.Now().UTC().Truncate(time.Second),
		Parent: &order.Parent{Started: c.session.Attempt.Started, Digest: c.session.Digest(), Tick: tick},
	}
	if !next.behind() {
		next.arrive()
	}
	return next.start(apart), nil
}

// anew mans the session of a crew at its beginning, over the same ground, with its
// orders as the script.
func (c *Crew) anew() (*Crew, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	s, err := sim.NewOver(c.session.World(), c.session.Exercise, c.session.Seeds)
	if err != nil {
		return nil, err
	}
	next := man(s)
	next.script, next.earlier = slices.Clone(c.session.Commands), c
	return next, nil
}

// arrive is where a session that is tried again becomes one of its own: what its pings
// lit before, the witness of the earlier one knows.
func (c *Crew) arrive() {
	if c.earlier == nil || c.looking {
		return
	}
	for i := range c.witness.Seen {
		c.witness.Seen[i] = nil // of pings that the record did not have
	}
	c.witness.Adopt(c.earlier.witness, c.next)
	c.earlier = nil
}

// GoTo has a session that is looked at go on to a later tick at once.
func (c *Crew) GoTo(tick int64) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.looking {
		c.until = tick
		c.show()
	}
}
