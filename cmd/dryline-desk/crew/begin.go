package crew

import (
	"bytes"
	"time"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/order"
)

// Begin begins a session of an exercise, with everything left to chance derived
// from a seed, and mans it. apart gives the crew a goroutine of its own; without,
// it works inside [Crew.Pass]. What was prepared is ordered before the first tick.
func Begin(ex *exercise.Exercise, seed uint64, apart bool, prepared ...order.Command) (*Crew, error) {
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
	c := man(s)
	for _, o := range prepared {
		o.Tick = 0
		if err := s.Give(o); err != nil {
			return nil, err
		}
	}
	return c.start(apart), nil
}

// Left is how a session was left.
type Left struct {
	Tick    int64
	Over    bool   // it was flown to its end
	Foreign string // how what flew it differs from what resumes it, empty if it does not
}

// Resume mans a session by its log, which carries the exercise, and first brings it
// to where it was left by what was ordered then.
func Resume(log []byte, apart bool) (*Crew, Left, error) {
	l, err := order.ReadLog(bytes.NewReader(log))
	if err != nil {
		return nil, Left{}, err
	}
	ex, err := scenarios.FromLog(l)
	if err != nil {
		return nil, Left{}, err
	}
	s, err := sim.NewSeeded(ex, l.Seeds)
	if err != nil {
		return nil, Left{}, err
	}
	s.Attempt = l.Attempt
	left := Left{l.Ticks, l.Reason == order.ReasonFinished, l.Foreign()}
	return manLeft(s, l).start(apart), left, nil
}

// manLeft mans a session that is first brought to where a log of it ends.
func manLeft(s *sim.Session, l *order.Log) *Crew {
	c := man(s)
	c.script, c.until = l.Commands, l.Ticks
	return c
}
