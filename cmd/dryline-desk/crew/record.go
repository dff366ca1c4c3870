package crew

import (
	"bytes"
	"io"

	"dryline/sim/exercise"
	"dryline/sim/order"
)

// Book is where orders are written down before they are carried out.
type Book interface {
	// Order writes down an order given at a tick, and reports whether it is down. If
	// it is not yet, [Crew.Written] has to be called when it is. The record is to be
	// encoded during the call.
	Order(tick int64, r Record) bool
}

// Record encodes a record of the session's log: to be added to those encoded
// before or, afresh, behind the head of the log and all that was ordered so far.
type Record func(afresh bool) ([]byte, error)

// ordered is the record of an order. The session is held.
func (c *Crew) ordered(o order.Command) Record {
	return func(afresh bool) ([]byte, error) {
		return c.encode(afresh, func(w *order.LogWriter) error { return w.Command(o) })
	}
}

// Reached is the record of how far the session is. The session is waited for only
// where the log begins afresh.
func (c *Crew) Reached(tick int64) Record {
	return func(afresh bool) ([]byte, error) {
		if afresh {
			c.mu.Lock()
			defer c.mu.Unlock()
		}
		return c.encode(afresh, func(w *order.LogWriter) error { return w.Reached(tick) })
	}
}

// Interrupted is the record of a session that is left where it is.
func (c *Crew) Interrupted() Record {
	return func(afresh bool) ([]byte, error) {
		c.mu.Lock()
		defer c.mu.Unlock()
		s := c.session
		return c.encode(afresh, func(w *order.LogWriter) error { return w.End(s.Ticks(), order.ReasonInterrupted, s.Digest()) })
	}
}

func (c *Crew) encode(afresh bool, record func(*order.LogWriter) error) ([]byte, error) {
	var b bytes.Buffer
	if afresh {
		w, err := order.NewLogWriter(&b, c.session.Head())
		if err != nil {
			return nil, err
		}
		for _, o := range c.session.Commands {
			if err := w.Command(o); err != nil {
				return nil, err
			}
		}
		c.records = w
	}
	c.records.To(&b)
	if err := record(c.records); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// WriteLog writes the whole log of the session.
func (c *Crew) WriteLog(w io.Writer) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.session.WriteLog(w)
}

// Files are those that the session's exercise names: its log is of no use without.
func (c *Crew) Files() []exercise.File { return c.session.Exercise.Files }
