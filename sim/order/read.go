package order

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// Bounds of a log that is read: nothing a file says can make the reader take
// more memory than this.
const (
	maxLogLine     = 8 << 20
	maxLogCommands = 1 << 20
	maxLogTicks    = 1 << 26
)

// ReadLog reads a session log. A log cut off in the middle of a record, or
// before its end, is read up to its last whole record, with ReasonTruncated. A
// log of format 2 that was changed is refused at the first record that shows it.
func ReadLog(r io.Reader) (*Log, error) {
	log := &Log{Reason: ReasonTruncated}
	err := eachLine(r, func(n int, line []byte, whole bool) error {
		err := log.take(n, line)
		if err != nil && !whole && n > 1 && !json.Valid(line) {
			return nil // cut off here: what came before stands
		}
		if err != nil {
			return fmt.Errorf("line %d: %w", n, err)
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("session log: %w", err)
	}
	if log.Source == nil {
		return nil, errors.New("session log: it is empty")
	}
	return log, nil
}

// eachLine calls f with each line of a file, numbered from 1; whole says that it
// ended in a newline, which only the last may lack.
func eachLine(r io.Reader, f func(n int, line []byte, whole bool) error) error {
	lines := bufio.NewScanner(r)
	lines.Buffer(make([]byte, 0, 64<<10), maxLogLine)
	whole := true
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
	for n := 1; lines.Scan(); n++ {
		if err := f(n, lines.Bytes(), whole); err != nil {
			return err
		}
	}
	if err := lines.Err(); err != nil {
		if errors.Is(err, bufio.ErrTooLong) {
			return fmt.Errorf("a line is longer than %d bytes", maxLogLine)
		}
		return err
	}
	return nil
}

// take takes one line of a log.
func (l *Log) take(n int, line []byte) error {
	if n == 1 {
		return l.readHeader(line)
	}
	if l.Reason != ReasonTruncated {
		return errors.New("something follows the end")
	}
	if l.Format > 1 {
		record, err := l.chain.untie(line)
		if err != nil {
			return err
		}
		line = record
	}
	return l.readRecord(line)
}

func (l *Log) readHeader(line []byte) error {
	var format struct {
		Format int `json:"dryline_session"`
	}
	if err := json.Unmarshal(line, &format); err != nil {
		return fmt.Errorf("not a session log: %w", err)
	}
	switch format.Format {
	case 1:
	case LogFormat:
		record, err := l.chain.untie(line)
		if err != nil {
			return err
		}
		line = record
	case 0:
		return errors.New("not a session log")
	default:
		return fmt.Errorf("dryline_session is %d (want 1 to %d)", format.Format, LogFormat)
	}
	return l.Head.decode(line)
}

// readRecord reads what follows the header, without its chain.
func (l *Log) readRecord(line []byte) error {
	var end logEnd
	if err := strictly(line, &end); err == nil && end.End != nil {
		if *end.End < l.Ticks || *end.End > maxLogTicks {
			return fmt.Errorf("end: %d is out of range (want %d to %d)", *end.End, l.Ticks, maxLogTicks)
		}
		if end.Reason != ReasonFinished && end.Reason != ReasonInterrupted {
			return fmt.Errorf("reason: %q (want %s or %s)", end.Reason, ReasonFinished, ReasonInterrupted)
		}
		l.Ticks, l.Reason, l.Digest = *end.End, end.Reason, end.Digest
		return nil
	}
	var reached logReached
	if err := strictly(line, &reached); err == nil && reached.Reached != nil {
		if *reached.Reached < l.Ticks || *reached.Reached > maxLogTicks {
			return fmt.Errorf("reached: %d is out of range (want %d to %d)", *reached.Reached, l.Ticks, maxLogTicks)
		}
		l.Ticks = *reached.Reached
		return nil
	}
	c, err := readCommand(line, l.Ticks)
	if err != nil {
		return err
	}
	if len(l.Commands) == maxLogCommands {
		return fmt.Errorf("more than %d commands", maxLogCommands)
	}
	l.Commands = append(l.Commands, c)
	l.Ticks = c.Tick
	return nil
}

// readCommand reads an order that may not come before a tick.
func readCommand(line []byte, earliest int64) (Command, error) {
	var c Command
	if err := strictly(line, &c); err != nil {
		return c, err
	}
	if c.Tick < earliest || c.Tick > maxLogTicks {
		return c, fmt.Errorf("tick: %d is out of range (want %d to %d)", c.Tick, earliest, maxLogTicks)
	}
	return c, nil
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
