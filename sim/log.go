package sim

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// LogFormat is the version of the session log.
const LogFormat = 1

// A session log is JSON Lines: a header, a command a line, and an end.
//
//	{"dryline_session":1,"exercise":"...","sha256":"...","seed":7,"source":"..."}
//	{"tick":0,"do":"speed","value":2.16}
//	...
//	{"end":21112,"reason":"finished"}
//
// The header carries the whole exercise, so a log replays years later.

type logHeader struct {
	Format   int    `json:"dryline_session"`
	Exercise string `json:"exercise"`
	Hash     string `json:"sha256"`
	Seed     uint64 `json:"seed"`
	Source   string `json:"source"`
}

type logEnd struct {
	End    *int64 `json:"end"`
	Reason string `json:"reason"`
}

// Reasons a session log ends.
const (
	ReasonFinished    = "finished"
	ReasonInterrupted = "interrupted"
	ReasonTruncated   = "truncated" // never written: the reader's word for a log without an end
)

// Log is a session as written down.
type Log struct {
	Exercise string
	Hash     string
	Seed     uint64
	Source   []byte
	Commands []Command
	Ticks    int64
	Reason   string
}

// WriteLog writes the session's log. Of a session still running it says that
// it was interrupted where it is.
func (s *Session) WriteLog(w io.Writer) error {
	reason := s.ended
	if reason != ReasonFinished {
		reason = ReasonInterrupted
	}
	b := bufio.NewWriter(w)
	enc := json.NewEncoder(b)
	enc.SetEscapeHTML(false)
	ex := s.Exercise
	if err := enc.Encode(logHeader{LogFormat, ex.Name, ex.Hash, s.Seed, string(ex.Source)}); err != nil {
		return err
	}
	for _, c := range s.Commands {
		if err := enc.Encode(c); err != nil {
			return err
		}
	}
	if err := enc.Encode(logEnd{&s.tick, reason}); err != nil {
		return err
	}
	return b.Flush()
}

// Bounds of a log that is read: nothing a file says can make the reader take
// more memory than this.
const (
	maxLogLine     = 8 << 20
	maxLogCommands = 1 << 20
	maxLogTicks    = 1 << 26
)

// ReadLog reads a session log. A log cut off in the middle of a record, or
// before its end, is read up to its last whole record, with ReasonTruncated.
func ReadLog(r io.Reader) (*Log, error) {
	lines := bufio.NewScanner(r)
	lines.Buffer(make([]byte, 0, 64<<10), maxLogLine)
	whole := true // the last line read ended in a newline
	lines.Split(func(data []byte, atEOF bool) (int, []byte, error) {
		if i := bytes.IndexByte(data, '\n'); i >= 0 {
			return i + 1, data[:i], nil
		}
		if atEOF && len(data) > 0 {
			whole = false
			return len(data), data, nil
		}
		return 0, nil, nil
	})
	log := &Log{Reason: ReasonTruncated}
	for n := 1; lines.Scan(); n++ {
		line := lines.Bytes()
		if n == 1 {
			if err := log.readHeader(line); err != nil {
				return nil, err
			}
			continue
		}
		if log.Reason != ReasonTruncated {
			return nil, fmt.Errorf("session log line %d: something follows the end", n)
		}
		if err := log.readRecord(line); err != nil {
			if !whole {
				break // cut off here: what came before stands
			}
			return nil, fmt.Errorf("session log line %d: %w", n, err)
		}
	}
	if err := lines.Err(); err != nil {
		if errors.Is(err, bufio.ErrTooLong) {
			return nil, fmt.Errorf("session log: a line is longer than %d bytes", maxLogLine)
		}
		return nil, fmt.Errorf("session log: %w", err)
	}
	if log.Source == nil {
		return nil, errors.New("session log: it is empty")
	}
	return log, nil
}

func (l *Log) readHeader(line []byte) error {
	var h logHeader
	if err := strictly(line, &h); err != nil {
		return fmt.Errorf("session log line 1: not a session log: %w", err)
	}
	if h.Format != LogFormat {
		return fmt.Errorf("session log line 1: dryline_session is %d (want %d)", h.Format, LogFormat)
	}
	if h.Source == "" {
		return errors.New("session log line 1: it carries no exercise")
	}
	l.Exercise, l.Hash, l.Seed, l.Source = h.Exercise, h.Hash, h.Seed, []byte(h.Source)
	return nil
}

func (l *Log) readRecord(line []byte) error {
	if is, err := l.readReached(line); is {
		return err
	}
	var end logEnd
	if err := strictly(line, &end); err == nil && end.End != nil {
		if *end.End < l.Ticks || *end.End > maxLogTicks {
			return fmt.Errorf("end: %d is out of range (want %d to %d)", *end.End, l.Ticks, maxLogTicks)
		}
		if end.Reason != ReasonFinished && end.Reason != ReasonInterrupted {
			return fmt.Errorf("reason: %q (want %s or %s)", end.Reason, ReasonFinished, ReasonInterrupted)
		}
		l.Ticks, l.Reason = *end.End, end.Reason
		return nil
	}
	var c Command
	if err := strictly(line, &c); err != nil {
		return err
	}
	if c.Tick < l.Ticks || c.Tick > maxLogTicks {
		return fmt.Errorf("tick: %d is out of range (want %d to %d)", c.Tick, l.Ticks, maxLogTicks)
	}
	if len(l.Commands) == maxLogCommands {
		return fmt.Errorf("more than %d commands", maxLogCommands)
	}
	l.Commands = append(l.Commands, c)
	l.Ticks = c.Tick
	return nil
}

// strictly decodes one JSON object and nothing else.
func strictly(line []byte, v any) error {
	d := json.NewDecoder(bytes.NewReader(line))
	d.DisallowUnknownFields()
	if err := d.Decode(v); err != nil {
		return err
	}
	if d.More() {
		return errors.New("more than one value on the line")
	}
	return nil
}

// Replay gives the session the commands of a log at their ticks and steps it
// to the log's end. between, if not nil, is called from time to time; it stops
// the replay by returning false.
func (s *Session) Replay(l *Log, between func() bool) error {
	to := func(tick int64) bool {
		for s.tick < tick && !s.done {
			if between != nil && !between() {
				return false
			}
			s.Advance(int(min(tick-s.tick, 100)))
		}
		return true
	}
	for i, c := range l.Commands {
		if !to(c.Tick) {
			return nil
		}
		if s.done && c.Do == Finish {
			break // the time limit finished it, as it did the first time
		}
		if err := s.Give(c); err != nil {
			return fmt.Errorf("command %d at tick %d: %w", i+1, c.Tick, err)
		}
	}
	to(l.Ticks)
	return nil
}

// Close ends the session where it is, for a reason: an open line is closed, as
// if the log had been switched off. It is no command and leaves none in the
// log. A session that is over stays as it ended.
func (s *Session) Close(reason string) {
	if s.done {
		return
	}
	if s.studio.logging {
		s.studio.add(event{lineOff: true})
		s.studio.logging = false
	}
	s.develop()
	s.done, s.ended = true, reason
}
