package app

import (
	"bytes"

	"dryline/cmd/dryline-desk/crew"
	"dryline/scenarios"
	"dryline/sim"
)

// Start begins a session of an exercise.
func Start(g *Game, ex *sim.Exercise) (Screen, error) {
	seed := g.Seed
	if seed == 0 {
		seed = ex.Seed
	}
	s, err := sim.New(ex, seed)
	if err != nil {
		return nil, err
	}
	// A person keeps the lookout here; it is an order like any other, so that the
	// log replays without a person.
	if err := s.Give(sim.Command{Do: sim.Lookout, Value: 0}); err != nil {
		return nil, err
	}
	return NewWatch(g, s), nil
}

// Resume goes on with a session from its log: the log carries the exercise,
// and what was ordered brings everything back to where it was.
func Resume(g *Game, log []byte) (Screen, error) {
	l, err := sim.ReadLog(bytes.NewReader(log))
	if err != nil {
		return nil, err
	}
	ex, err := scenarios.Parse(l.Exercise+".yaml", l.Source)
	if err != nil {
		return nil, err
	}
	s, err := sim.New(ex, l.Seed)
	if err != nil {
		return nil, err
	}
	return newWatch(g, s, func() *crew.Crew { return crew.Resume(s, l, g.Apart) }), nil
}

// keepFinished saves the log of a session that is over.
func (g *Game) keepFinished(c *crew.Crew) {
	var b bytes.Buffer
	if err := c.WriteLog(&b); err != nil {
		g.Notice = "the session could not be written: " + err.Error()
		return
	}
	where, err := g.Store.Save(c.Name()+".jsonl", b.Bytes())
	if err != nil {
		g.Notice = "the session could not be saved: " + err.Error()
		return
	}
	g.Notice = "the session is in " + where + "; dryline replay flies it again"
}

// keepSession saves the log of a session that was left before its end.
func (g *Game) keepSession(c *crew.Crew) {
	var b bytes.Buffer
	if err := c.WriteLog(&b); err != nil {
		g.Notice = "the session could not be kept: " + err.Error()
		return
	}
	v := c.View()
	if v.Tick == 0 {
		return // nothing has happened yet
	}
	where, err := g.Store.Save(c.Name()+"-watch.jsonl", b.Bytes())
	if err != nil {
		g.Notice = "the session could not be kept: " + err.Error()
		return
	}
	g.Notice = "the session is kept in " + where + " and can be resumed"
}
