package app

import (
	"bytes"
	"time"

	"dryline/cmd/dryline-desk/crew"
	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/order"
)

// Start begins a session of an exercise.
func Start(g *Game, ex *exercise.Exercise) (Screen, error) {
	seed := g.Seed
	if seed == 0 {
		seed = ex.Seed
	}
	s, err := sim.New(ex, seed)
	if err != nil {
		return nil, err
	}
	s.Attempt.Started = time.Now().UTC().Truncate(time.Second)
	// A person keeps the lookout here; it is an order like any other, so that the
	// log replays without a person.
	if err := s.Give(order.Command{Do: order.Lookout, Value: 0}); err != nil {
		return nil, err
	}
	return NewWatch(g, s), nil
}

// Resume goes on with a session from its log: the log carries the exercise,
// and what was ordered brings everything back to where it was. What happens from
// there on is kept where the session was, or in a place of its own if where is
// empty.
func Resume(g *Game, where string, log []byte) (Screen, error) {
	l, err := order.ReadLog(bytes.NewReader(log))
	if err != nil {
		return nil, err
	}
	ex, err := scenarios.FromLog(l)
	if err != nil {
		return nil, err
	}
	s, err := sim.NewSeeded(ex, l.Seeds)
	if err != nil {
		return nil, err
	}
	s.Attempt = l.Attempt
	w := newWatch(g, s, func(w *sim.Witness) *crew.Crew { return crew.Resume(s, w, l, g.Apart) })
	if foreign := l.Foreign(); foreign != "" {
		g.sayThen("The session was " + foreign + ": brought back it may come out otherwise")
	}
	w.setRate(1, true)
	w.journal.where, w.journal.tick, w.journal.over = where, l.Ticks, l.Reason == order.ReasonFinished
	return w, nil
}

// saveSession saves a session as a file of the person's, and says where.
func (g *Game) saveSession(c *crew.Crew, name string) (where string) {
	var b bytes.Buffer
	err := c.WriteLog(&b)
	if err == nil {
		where, err = g.Store.Save(name, b.Bytes())
	}
	if err != nil {
		g.say("The session could not be saved: " + err.Error())
		return ""
	}
	return where
}
