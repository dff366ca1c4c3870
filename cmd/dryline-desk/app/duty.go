package app

import (
	"dryline/cmd/dryline-desk/crew"
)

// Duty is the screen of a session: the watch that is stood, and the crew, which has
// the session. The debrief gets from the crew what the watch may not know.
type Duty struct {
	*Watch
	owner  *crew.Crew
	handIn HandIn // nil unless it is an assessment
}

// newDuty has a crew stand a watch.
func newDuty(g *Game, c *crew.Crew) *Duty {
	w := newWatch(g, g.faded(c.Brief(), c.ExerciseHash()), c)
	w.chart.mosaic = newMosaic(c)
	c.SetBook(w.journal)
	if p := c.Parent(); p != nil {
		w.practice = "Practice from " + clockAt(w.brief.Start, float64(p.Tick)/10) + ": it never counts"
	}
	return &Duty{w, c, nil}
}

// Update implements [Screen].
func (d *Duty) Update(g *Game) error {
	if err := d.Watch.Update(g); err != nil || !d.view.Done {
		return err
	}
	if d.handIn != nil {
		g.Go(newHandedIn(d))
		return nil
	}
	say := g.sayThen
	kept := d.journal.finish(func(says string) { say(says) })
	say = g.say // should it be told later
	over := d.debrief(kept)
	g.remember(&over.report)
	g.Go(over)
	return nil
}

// debrief is the debrief of a session that is over, and kept somewhere. It takes the
// pictures over and leaves the watch behind.
func (d *Duty) debrief(kept string) *Debrief {
	return NewDebrief(d.owner, d.chart.mosaic, d.chart.plot, d.fall.brightness, kept)
}
