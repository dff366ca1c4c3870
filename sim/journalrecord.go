package sim

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
)

// A journal is the log of a session under way, only ever added to. Besides the
// records of every session log it has one that says how far the session got, so
// that one cut off by a dying machine is known to the second:
//
//	{"reached":1210}
//
// Until it is ended [ReadLog] takes it for a log that was cut off, at the tick
// reached.

type logReached struct {
	Reached *int64 `json:"reached"`
}

// Journal writes the records of a session under way, each with one call of its
// writer.
type Journal struct{ w io.Writer }

// BeginJournal writes the header of a session's journal.
func BeginJournal(w io.Writer, ex *Exercise, seed uint64) (*Journal, error) {
	j := &Journal{w}
	return j, j.record(logHeader{LogFormat, ex.Name, ex.Hash, seed, string(ex.Source)})
}

// Order writes an order down, to be carried out before the tick it names. Ticks
// never go back.
func (j *Journal) Order(c Command) error { return j.record(c) }

// Reached writes down that the session got to a tick.
func (j *Journal) Reached(tick int64) error { return j.record(logReached{&tick}) }

// End writes down that the session ended, for a reason.
func (j *Journal) End(tick int64, reason string) error { return j.record(logEnd{&tick, reason}) }

// To has what follows go to another writer.
func (j *Journal) To(w io.Writer) { j.w = w }

func (j *Journal) record(v any) error {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return err
	}
	_, err := j.w.Write(b.Bytes())
	return err
}

// readReached takes a record that says how far the session got, and reports
// whether the line was one.
func (l *Log) readReached(line []byte) (bool, error) {
	var r logReached
	if err := strictly(line, &r); err != nil || r.Reached == nil {
		return false, nil
	}
	if *r.Reached < l.Ticks || *r.Reached > maxLogTicks {
		return true, fmt.Errorf("reached: %d is out of range (want %d to %d)", *r.Reached, l.Ticks, maxLogTicks)
	}
	l.Ticks = *r.Reached
	return true, nil
}
