package crew

import (
	"dryline/sim/assess"
	"dryline/sim/order"
)

// Assess mans a session that is flown as an assessment, which is first brought to where it was
// left. It writes its own log: the crew needs no book.
func Assess(s *assess.Session, apart bool) (*Crew, error) {
	c := man(s.Session)
	c.assessed = s
	orders, ticks, left := s.Left()
	if left {
		c.script, c.until, c.wrote = orders, ticks, ticks
		if !c.behind() {
			if err := s.Resumed(); err != nil {
				return nil, err
			}
		}
	} else if err := s.Give(order.Command{Do: order.Lookout, Value: 0}); err != nil { // see Begin
		return nil, err
	}
	return c.start(apart), nil
}

// Assessed reports whether the session is flown as an assessment.
func (c *Crew) Assessed() bool { return c.assessed != nil }

// give carries out an order; in an assessment it is written down first.
func (c *Crew) give(o order.Command) error {
	if c.assessed == nil {
		return c.session.Give(o)
	}
	if err := c.assessed.Give(o); err != nil {
		return err
	}
	c.writeReached(o.Do == order.Finish)
	return nil
}

// reachedEvery is how often the log of an assessment says how far the session is, ticks.
const reachedEvery = 50

// writeReached writes down how far an assessment is, when it is time to.
func (c *Crew) writeReached(now bool) {
	s := c.session
	if c.assessed == nil || !now && !(s.Done() && s.Ticks() > c.wrote) && s.Ticks() < c.wrote+reachedEvery {
		return
	}
	c.wrote = s.Ticks()
	if err := c.assessed.Reached(); err != nil {
		c.complain("the assessment cannot be written down: " + err.Error())
	}
}

// resumeAssessed writes down that an assessment goes on where it was left.
func (c *Crew) resumeAssessed() {
	if c.assessed == nil {
		return
	}
	if err := c.assessed.Resumed(); err != nil {
		c.complain("the assessment cannot be written down: " + err.Error())
	}
}

// leaveAssessed writes down how far an assessment came.
func (c *Crew) leaveAssessed() {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.assessed != nil && !c.session.Done() && !c.behind() && c.session.Ticks() > c.wrote {
		c.writeReached(true)
	}
}
