package sim

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"time"
)

// LogWriter writes a session log record by record. After an error, writes do
// nothing but report it.
type LogWriter struct {
	w     io.Writer
	chain chain
	err   error
}

// NewLogWriter begins the log of a session. Each record is one call of w.Write.
func NewLogWriter(w io.Writer, s *Session) (*LogWriter, error) {
	l := &LogWriter{w: w}
	ex := s.Exercise
	h := logHeader{
		Format: LogFormat, Engine: EngineNumber, Platform: Platform(), Origin: s.origin, Trainee: s.Attempt.Trainee,
		Exercise: ex.Name, Hash: ex.Hash, Seed: s.Seed, Source: string(ex.Source),
	}
	if t := s.Attempt.Started; !t.IsZero() {
		h.Started = t.UTC().Format(time.RFC3339)
	}
	return l, l.write(h)
}

// To has what follows go to another writer.
func (l *LogWriter) To(w io.Writer) { l.w = w }

// Command writes an order down.
func (l *LogWriter) Command(c Command) error { return l.write(c) }

// Reached writes down how far the session is.
func (l *LogWriter) Reached(tick int64) error { return l.write(logReached{&tick}) }

// End ends the log of a session: of one still running it says that it was
// interrupted where it is.
func (l *LogWriter) End(s *Session) error {
	reason := s.ended
	if reason != ReasonFinished {
		reason = ReasonInterrupted
	}
	return l.write(logEnd{&s.tick, reason, s.Digest()})
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

// WriteLog writes the whole log of a session.
func (s *Session) WriteLog(w io.Writer) error {
	b := bufio.NewWriter(w)
	l, err := NewLogWriter(b, s)
	if err != nil {
		return err
	}
	for _, c := range s.Commands {
		if err := l.Command(c); err != nil {
			return err
		}
	}
	if err := l.End(s); err != nil {
		return err
	}
	return b.Flush()
}
