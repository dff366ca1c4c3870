package debrief

import (
	"fmt"
	"time"

	"dryline/sim/order"
)

// Practice says that the session was tried again from a moment of an earlier one. It
// shares the exercise, the seeds and the orders before that moment, and never counts.
type Practice struct {
	Started *time.Time `json:"parent_started_utc,omitempty"` // of the earlier one, by the clock on the wall
	Digest  string     `json:"parent_digest,omitempty"`
	From    float64    `json:"from_s"`
}

// practiceOf tells where a session was tried again from, nil for one of its own.
func practiceOf(p *order.Parent) *Practice {
	if p == nil {
		return nil
	}
	out := &Practice{Digest: p.Digest, From: round(float64(p.Tick) / ticksPerSecond)}
	if !p.Started.IsZero() {
		out.Started = &p.Started
	}
	return out
}

// says is why it does not count, by the time on board.
func (p *Practice) says(start time.Time) string {
	of := "an earlier session"
	if p.Started != nil {
		of = "the session begun " + p.Started.UTC().Format("2006-01-02 15:04:05") + " UTC"
	}
	return fmt.Sprintf("A practice run, tried again from %s of %s: it never counts.", clockOf(start, p.From), of)
}
