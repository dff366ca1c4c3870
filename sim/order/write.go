package order

import (
	"bytes"
	"encoding/json"
	"io"
)

// LogWriter writes a session log record by record. After an error, writes do
// nothing but report it.
type LogWriter struct {
	w     io.Writer
	chain chain
	err   error
}

// NewLogWriter begins the log of a session. Each record is one call of w.Write.
func NewLogWriter(w io.Writer, h Head) (*LogWriter, error) {
	l := &LogWriter{w: w}
	return l, l.write(h.encode())
}

// To has what follows go to another writer.
func (l *LogWriter) To(w io.Writer) { l.w = w }

// Command writes an order down.
func (l *LogWriter) Command(c Command) error { return l.write(c) }

// Reached writes down how far the session is.
func (l *LogWriter) Reached(tick int64) error { return l.write(logReached{&tick}) }

// End ends the log at a tick, for a reason, with the digest of what the session
// gave. A session that did not finish was interrupted.
func (l *LogWriter) End(tick int64, reason, digest string) error {
	if reason != ReasonFinished {
		reason = ReasonInterrupted
	}
	return l.write(logEnd{&tick, reason, digest})
}

func (l *LogWriter) write(record any) error {
	if l.err != nil {
		return l.err
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if l.err = enc.Encode(record); l.err != nil {
		return l.err
	}
	line := append(l.chain.tie(bytes.TrimSuffix(b.Bytes(), []byte("\n"))), '\n')
	_, l.err = l.w.Write(line)
	return l.err
}
