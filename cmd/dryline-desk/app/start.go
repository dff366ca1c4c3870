package app

import (
	"bytes"
	"io"

	"dryline/cmd/dryline-desk/crew"
	"dryline/sim/exercise"
	"dryline/sim/order"
)

// Start begins a session of an exercise.
func Start(g *Game, ex *exercise.Exercise) (Screen, error) { return startPrepared(g, ex, nil) }

// seedFor returns the seed that a session of an exercise is derived from.
func seedFor(g *Game, ex *exercise.Exercise) uint64 {
	if g.Seed != 0 {
		return g.Seed
	}
	return ex.Seed
}

// startPrepared begins a session of an exercise with what was prepared for it.
func startPrepared(g *Game, ex *exercise.Exercise, prepared []order.Command) (Screen, error) {
	begun := *ex
	begun.Sonar.Step = g.Step
	c, err := crew.Begin(&begun, seedFor(g, ex), g.Apart, prepared...)
	if err != nil {
		return nil, err
	}
	return newDuty(g, c), nil
}

// Resume resumes a session from its log: the log carries the exercise, and what was
// ordered brings everything back to where it was. What happens from there on is kept
// where the session was, or in a place of its own if where is empty.
func Resume(g *Game, where string, log []byte) (Screen, error) {
	c, left, err := crew.Resume(log, g.Apart)
	if err != nil {
		return nil, err
	}
	d := newDuty(g, c)
	if left.Foreign != "" {
		g.sayThen("The session was " + left.Foreign + ": flown again it may turn out differently")
	}
	d.pace.set(1, true)
	d.journal.where, d.journal.tick, d.journal.over = where, left.Tick, left.Over
	return d, nil
}

// saveSession saves a session as a file of the person's, and says where.
func (g *Game) saveSession(c interface{ WriteLog(io.Writer) error }, name string) (where string) {
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
