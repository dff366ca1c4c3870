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
	away   bool   // at the desk; it comes back
}

// newDuty has a crew stand a watch.
func newDuty(g *Game, c *crew.Crew) *Duty {
	w := newWatch(g, g.faded(c.Brief(), c.ExerciseHash()), c)
	w.chart.mosaic = newMosaic(c)
	c.SetBook(w.journal)
	if p := c.Parent(); p != nil {
		w.practice = "Practice from " + clockAt(w.brief.Start, float64(p.Tick)/10) + ": it never counts"
	}
	return manned(w, c, nil)
}

// manned is the duty of a watch and its crew.
func manned(w *Watch, c *crew.Crew, handIn HandIn) *Duty {
	d := &Duty{Watch: w, owner: c, handIn: handIn}
	w.toDesk = d.toDesk
	return d
}

// Update implements [Screen]. When the watch is over the desk works on, if anything was logged.
func (d *Duty) Update(g *Game) error {
	if err := d.Watch.Update(g); err != nil || !d.view.Done {
		return err
	}
	if finished := d.handIn == nil && d.journal.over; finished || len(d.view.Lines) == 0 {
		d.conclude(g)
		return nil
	}
	d.goToDesk(g)
	return nil
}

// toDesk goes to the desk, if there is anything on it and time may stand still.
func (d *Duty) toDesk(g *Game) {
	switch {
	case d.brief.Help.Assessed:
		g.say("In an assessment time does not stand still: the desk opens when the watch is over")
	case d.view.Bridge.Logging != "":
		g.sayWhile("The desk works on closed lines: stop the log first (L).", func() bool { return d.view.Bridge.Logging != "" })
	case len(d.view.Lines) == 0:
		g.sayWhile("No line is closed yet: there is nothing on the desk.", func() bool { return len(d.view.Lines) == 0 })
	default:
		d.goToDesk(g)
	}
}

func (d *Duty) goToDesk(g *Game) {
	desk := newDesk(d.Watch, d.owner)
	if d.view.Done {
		desk.handIn = func(g *Game) {
			desk.gone = handedOver
			d.conclude(g)
		}
	} else {
		desk.leave = func(g *Game) {
			desk.gone = toTheWatch
			d.away = false
			d.pace.set(d.pace.rate, desk.paused)
			g.Go(d)
		}
	}
	d.away = true
	g.Go(desk)
}

// conclude hands the survey in, and shows what came of it.
func (d *Duty) conclude(g *Game) {
	if d.handIn != nil {
		g.Go(newHandedIn(d))
		return
	}
	say := g.sayThen
	kept := d.journal.finish(func(says string) { say(says) })
	say = g.say      // should it be told later
	d.fall.release() // the debrief needs room for a moment, and has no use for it
	g.Go(newConcluding(g, d.brief.Title, func() *Debrief { return d.debrief(kept) }))
}

// Close implements [Screen].
func (d *Duty) Close(g *Game) {
	if !d.away {
		d.Watch.Close(g)
	}
}

// debrief is the debrief of a session that is over, and kept somewhere. It takes the
// pictures over and leaves the watch behind.
func (d *Duty) debrief(kept string) *Debrief {
	return NewDebrief(d.owner, d.chart.mosaic, d.chart.plot, d.fall.brightness, kept)
}
