package record

import (
	"encoding/binary"
	"fmt"
	"iter"
	"math"
	"reflect"

	"dryline/sim/survey"
	"dryline/vessel/nav"
)

// Ping is one ping as it was recorded.
type Ping struct {
	survey.Ping
	Line     int              // index in [Store.Lines]; -1 with the log off
	Lost     bool             // nothing was recorded: every sample is 0
	Recorder *survey.Recorder // as it was set; not to be changed
}

// All goes through every ping in order; see [Store.Pings].
func (s *Store) All() iter.Seq2[*Ping, error] { return s.Pings(0, math.MaxUint64) }

// Pings goes through the pings from one number to another, both included, as far as
// there are any now. Each is good until the next: whoever keeps one clones its samples.
// An error ends it; it is [ErrNotKept] if some of them are not there.
func (s *Store) Pings(from, to uint64) iter.Seq2[*Ping, error] {
	return func(yield func(*Ping, error) bool) {
		s.mu.Lock()
		c, backing := s.pings.cut(from, to, s.notKept()), s.backing
		r := pingReader{recorders: s.recorders, lines: len(s.lines)}
		if s.closed {
			c = cut{err: errClosed}
		}
		s.mu.Unlock()
		err := c.each(backing, func(packed []byte, count int) (bool, error) {
			r.open(packed)
			for range count {
				number, err := r.head()
				if err != nil || number > to {
					return false, err
				}
				if number < from {
					continue
				}
				if err := r.samples(); err != nil {
					return false, err
				}
				if !yield(&r.ping, nil) {
					return false, nil
				}
			}
			return true, nil
		})
		if err != nil {
			yield(nil, err)
		}
	}
}

// Ping returns the ping of a number. The memory is the caller's.
func (s *Store) Ping(number uint64) (*Ping, error) {
	for p, err := range s.Pings(number, number) {
		return p, err
	}
	return nil, fmt.Errorf("record: there is no ping %d", number)
}

// LinePings goes through the pings of a line, by its index in [Store.Lines].
func (s *Store) LinePings(line int) iter.Seq2[*Ping, error] {
	l := s.Lines()[line]
	if l.Pings == 0 {
		return func(func(*Ping, error) bool) {}
	}
	return s.Pings(l.First, l.Last)
}

// Readings goes through the readings from one time to another, seconds, both
// included, as far as there are any now. Each is good until the next. Errors are
// those of [Store.Pings].
func (s *Store) Readings(from, to float64) iter.Seq2[*nav.Reading, error] {
	return func(yield func(*nav.Reading, error) bool) {
		if !(to >= 0) {
			return
		}
		first, last := keyOf(from), keyOf(to)
		s.mu.Lock()
		c, backing := s.readings.cut(first, last, s.notKept()), s.backing
		if s.closed {
			c = cut{err: errClosed}
		}
		s.mu.Unlock()
		var reading nav.Reading
		words := make(flat, readingWords)
		err := c.each(backing, func(packed []byte, count int) (more bool, err error) {
			clear(words)
			for range count {
				if packed, err = words.readChanges(packed); err != nil {
					return false, err
				}
				words.restore(reflect.ValueOf(&reading).Elem())
				switch key := keyOf(reading.Time); {
				case key < first:
				case key > last || !yield(&reading, nil):
					return false, nil
				}
			}
			return true, nil
		})
		if err != nil {
			yield(nil, err)
		}
	}
}

// notKept is the error for entries that are missing.
func (s *Store) notKept() error {
	if s.err != nil {
		return fmt.Errorf("%w: %w", ErrNotKept, s.err)
	}
	return ErrNotKept
}

// pingReader unpacks the pings of a block one after another.
type pingReader struct {
	recorders []*survey.Recorder
	lines     int
	packed    []byte
	rows      []byte // of the ping whose head was read last
	words     flat
	ping      Ping
}

// open begins a block.
func (r *pingReader) open(packed []byte) {
	r.packed = packed
	if r.words == nil {
		r.words = make(flat, pingWords)
	}
	clear(r.words)
}

// head reads all of a ping but its samples, and its number.
func (r *pingReader) head() (uint64, error) {
	var err error
	if r.packed, err = r.words.readChanges(r.packed); err != nil {
		return 0, err
	}
	n, size := binary.Uvarint(r.packed)
	if size <= 0 || n > uint64(len(r.packed)-size) {
		return 0, errDamaged
	}
	fault := r.packed[size : size+int(n)]
	r.packed = r.packed[size+int(n):]
	if len(r.packed) < 4 {
		return 0, errDamaged
	}
	length := int64(binary.LittleEndian.Uint32(r.packed))
	if r.packed = r.packed[4:]; length > int64(len(r.packed)) {
		return 0, errDamaged
	}
	r.rows, r.packed = r.packed[:length], r.packed[length:]
	if r.words[1] > uint64(r.lines) || r.words[2] >= uint64(len(r.recorders)) {
		return 0, errDamaged
	}
	p := &r.ping
	p.Number, p.Line, p.Recorder = r.words[0], int(r.words[1])-1, r.recorders[r.words[2]]
	r.words[3:].restore(reflect.ValueOf(&p.Fix).Elem())
	if string(fault) != p.Fix.Fault { // which seldom changes
		p.Fix.Fault = string(fault)
	}
	return p.Number, nil
}

// samples reads the samples of the ping whose head was read.
func (r *pingReader) samples() error {
	p, err := &r.ping, error(nil)
	src, lit := r.rows, false
	for _, side := range [2]*[][]uint16{&p.Port, &p.Starboard} {
		n, size := binary.Uvarint(src)
		if size <= 0 || n > uint64(len(src)) {
			return errDamaged
		}
		src = src[size:]
		rows := *side
		for len(rows) < int(n) {
			rows = append(rows, nil)
		}
		rows = rows[:n]
		for i := range rows {
			if rows[i], src, err = readRow(src, rows[i]); err != nil {
				return err
			}
			for k := 0; k < len(rows[i]) && !lit; k++ {
				lit = rows[i][k] != 0
			}
		}
		*side = rows
	}
	if len(src) > 0 {
		return errDamaged
	}
	p.Lost = !lit
	return nil
}
