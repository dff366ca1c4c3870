package main

import (
	"bytes"
	"context"
	"math"
	"time"

	"dryline/sim"
	"dryline/vessel/nav/nmea"
)

// player flies a session and hands its sentences to the outlets.
type player struct {
	session *sim.Session
	source  nmea.Source
	kinds   []nmea.Kind
	rate    float64 // reports per second of the exercise
	outlets []outlet

	// wait returns when so many seconds of the exercise are due, or the context
	// is done.
	wait func(ctx context.Context, due float64)
}

// instruments is a session that the mate flies for its instruments alone.
func instruments(ex *sim.Exercise, seed uint64) (*sim.Session, error) {
	s, err := sim.New(ex, seed)
	if err != nil {
		return nil, err
	}
	s.InstrumentsOnly()
	s.AttachMate()
	return s, nil
}

// play flies to the end of the exercise or of the context, and returns how
// many sentences it made.
func (p *player) play(ctx context.Context) (made int) {
	s := p.session
	for report := 1; ctx.Err() == nil && !s.Done(); report++ {
		// The first tick at which the report is due; a tick short of it by
		// rounding is it.
		tick := int64(math.Ceil(float64(report)/(p.rate*sim.Tick) - 1e-9))
		s.Advance(int(tick - s.Ticks()))
		if s.Ticks() < tick {
			break // the exercise ended before
		}
		p.wait(ctx, s.Now())
		if ctx.Err() != nil {
			break
		}
		sentences := p.report()
		made += len(sentences)
		for _, out := range p.outlets {
			out.send(sentences)
		}
	}
	if !s.Done() {
		s.Close(sim.ReasonInterrupted)
	}
	return made
}

// report is what the displays show now, a sentence each. Outlets may keep them.
func (p *player) report() [][]byte {
	reading := p.session.Reading()
	text := make([]byte, 0, 16*nmea.MaxLength)
	for _, k := range p.kinds {
		text = p.source.Append(text, k, &reading)
	}
	sentences := bytes.SplitAfter(text, []byte("\n"))
	return sentences[:len(sentences)-1] // after the last there is nothing
}

// pace keeps a session to the clock on the wall, so many times faster.
func pace(speedUp float64) func(context.Context, float64) {
	started := time.Now()
	return func(ctx context.Context, due float64) {
		left := time.Until(started.Add(time.Duration(due / speedUp * float64(time.Second))))
		if left <= 0 {
			return
		}
		select {
		case <-ctx.Done():
		case <-time.After(left):
		}
	}
}
