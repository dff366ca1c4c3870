package nav

// clock tells when an instrument is due to speak, and of when.
type clock struct {
	timing  *Timing
	next    float64
	started bool
}

// delay is how long ago what the instrument speaks of was, seconds.
func (c *clock) delay() float64 { return c.timing.Delay }

// speaks reports whether the instrument has something to say at this tick. If it
// is due it puts its displays among the fresh ones, and they hold good unless it
// is out.
func (c *clock) speaks(now float64, displays Set, r *Reading) bool {
	if !c.due(now, c.timing.Rate) {
		return false
	}
	r.Fresh |= displays
	out := c.timing.out(now)
	r.Valid.put(displays, !out)
	return !out
}

// due reports whether it speaks at this tick. A rate the ticks do not divide is
// kept on average; one faster than the ticks speaks at every tick.
func (c *clock) due(now, rate float64) bool {
	if rate <= 0 {
		return true
	}
	const rounding = 1e-6 // seconds
	switch {
	case !c.started:
		c.started, c.next = true, now+1/rate
		return true
	case now < c.next-rounding:
		return false
	}
	c.next = max(c.next+1/rate, now)
	return true
}
