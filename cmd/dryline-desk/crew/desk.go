package crew

import (
	"dryline/sim/exercise"
	"dryline/sim/survey"
)

// Papers lie on the desk: the survey as it is known there, and the brief. They are read
// while the session goes on, and never changed.
type Papers struct {
	Desk  *survey.Desk // without its mosaic; it takes no pings
	Brief *exercise.Brief

	Surveyor string
	Now      float64 // of the session, seconds
	Ended    string  // why it is over; empty while it runs
}

// Papers are those of this moment.
func (c *Crew) Papers() Papers {
	c.mu.Lock()
	defer c.mu.Unlock()
	s := c.session
	b := *s.Brief
	return Papers{s.Desk.Snapshot(), &b, s.Attempt.Trainee, s.Now(), s.Ended()}
}

// Bench has the record of the session and works at the desk with it, beside the window. It knows no
// truth.
func (c *Crew) Bench() *Bench {
	return &Bench{record: c.page.Record, priors: c.session.Prior}
}

// Adopt has the session take over what was worked out beforehand, with the next order to work the
// survey up again.
func (c *Crew) Adopt(w *survey.Worked) {
	c.mu.Lock()
	c.session.Prepare(w)
	c.mu.Unlock()
}
