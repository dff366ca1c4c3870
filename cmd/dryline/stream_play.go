package main

import (
	"bytes"
	"context"
	"math"
	"time"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/hand"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/vessel/nav/nmea"
)

// player flies a passage and hands its sentences to the outlets.
type player struct {
	passage *passage.Passage
	source  nmea.Source
	kinds   []nmea.Kind
	rate    float64 // reports per second of the exercise
	outlets []outlet

	// wait returns when so many seconds of the exercise are due, or the context
	// is done.
	wait func(ctx context.Context, due float64)
}

// instruments is a passage that the mate flies for its instruments.
func instruments(ex *exercise.Exercise, seed uint64) (*passage.Passage, error) {
	seeds := exercise.SeedsOf(seed)
	ex, err := ex.Settle(seeds)
	if err != nil {
		return nil, err
	}
	world := sim.NewWorld(ex, seeds)
	const around = 8 // tiles about the fish: one, or four at a corner, and some in reserve
	world.Keep(around)
	p, err := passage.New(ex, world, seeds)
	if err != nil {
		return nil, err
	}
	p.SetHand(hand.NewMate(ex.Brief()))
	return p, nil
}

// play flies to the end of the exercise or of the context, and returns how
// many sentences it made.
func (p *player) play(ctx context.Context) (made int) {
	s := p.passage
	for report := 1; ctx.Err() == nil && !s.Done(); report++ {
		// The first tick at which the report is due; a tick short of it by
		// rounding is it.
		tick := int64(math.Ceil(float64(report)/(p.rate*passage.Tick) - 1e-9))
		s.Advance(int(tick - s.Tick()))
		if s.Tick() < tick {
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
		s.End(order.ReasonInterrupted)
	}
	return made
}

// report returns what the displays show now, a sentence each. Outlets may keep them.
func (p *player) report() [][]byte {
	reading := p.passage.Reading()
	text := make([]byte, 0, 16*nmea.MaxLength)
	for _, k := range p.kinds {
		text = p.source.Append(text, k, &reading)
	}
	sentences := bytes.SplitAfter(text, []byte("\n"))
	return sentences[:len(sentences)-1] // after the last there is nothing
}

// pace keeps a passage to the clock on the wall, so many times faster.
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
