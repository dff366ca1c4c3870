package record

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"sync"

	"dryline/sim/survey"
	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
)

// ErrNotKept says that pings or readings there were are not in the store: it has
// no backing, or the backing failed before they came. Flying the session again
// from its log gives the same.
var ErrNotKept = errors.New("record: not kept")

var errClosed = errors.New("record: the store is closed")

// Store keeps what was recorded. It may be read while it is added to.
type Store struct {
	mu        sync.Mutex
	backing   Backing
	size      int64 // bytes in the backing
	blockSize int
	lines     []Line
	logging   bool               // to the last line
	recorders []*survey.Recorder // as they were set, in turn
	pings     stream             // by number
	readings  stream             // by time
	err       error              // why nothing is kept any more
	closed    bool
}

// Line is a stretch with the log on.
type Line struct {
	Name        string
	Track       geodesy.Track
	Pings       int    // logged
	First, Last uint64 // their numbers
}

// New returns a store with a backing, which it closes; with none it keeps
// nothing but the lines.
func New(b Backing) *Store { return &Store{backing: b, blockSize: blockSize} }

// StartLine has the pings from now on belong to a line.
func (s *Store) StartLine(name string, track geodesy.Track) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.lines, s.logging = append(s.lines, Line{Name: name, Track: track}), true
}

// EndLine has them belong to none.
func (s *Store) EndLine() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.logging = false
}

// Lines are the stretches with the log on so far, in order; a line run twice is
// there twice.
func (s *Store) Lines() []Line {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.lines)
}

// Append adds a ping as it reached the desk, with the recorder as it was set.
// Numbers ascend. Nothing of the ping is held on to.
//
// If the backing fails, the first call that meets it returns the error; after that
// nothing more is kept, there are no more errors, and the session can go on. What
// was added before stays.
func (s *Store) Append(p *survey.Ping, r *survey.Recorder) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	st := &s.pings
	if s.closed {
		return errClosed
	}
	if st.any && p.Number <= st.last {
		return fmt.Errorf("record: ping %d after ping %d", p.Number, st.last)
	}
	st.last, st.any = p.Number, true
	line := 0
	if s.logging {
		line = len(s.lines)
		l := &s.lines[line-1]
		if l.Pings == 0 {
			l.First = p.Number
		}
		l.Pings, l.Last = l.Pings+1, p.Number
	}
	if !s.keeps(st) {
		return nil
	}
	st.words = append(st.words[:0], p.Number, uint64(line), uint64(s.recorder(r)))
	st.words = st.words.flatten(reflect.ValueOf(&p.Fix).Elem())
	st.add(p.Number)
	st.open = appendText(st.open, p.Fix.Fault)
	st.open = appendRows(st.open, p.Port, p.Starboard)
	return s.spill(st)
}

// Read adds a reading of the instruments. Times ascend. Errors are those of
// [Store.Append].
func (s *Store) Read(r *nav.Reading) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	st := &s.readings
	if s.closed {
		return errClosed
	}
	key := keyOf(r.Time)
	if st.any && key <= st.last || !(r.Time >= 0) {
		return fmt.Errorf("record: a reading at %g s after one at %g s", r.Time, math.Float64frombits(st.last))
	}
	st.last, st.any = key, true
	if !s.keeps(st) {
		return nil
	}
	st.words = st.words[:0].flatten(reflect.ValueOf(r).Elem())
	st.add(key)
	return s.spill(st)
}

// Err is why nothing more is kept; nil while all is well.
func (s *Store) Err() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.err
}

// Close lets go of everything kept.
func (s *Store) Close() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed || s.backing == nil {
		s.closed = true
		return nil
	}
	s.closed = true
	s.pings, s.readings = stream{}, stream{}
	return s.backing.Close()
}

// keeps reports whether the stream's last entry is to be kept, and notes the first
// that is not.
func (s *Store) keeps(st *stream) bool {
	if s.backing != nil && s.err == nil {
		return true
	}
	if !st.short {
		st.short, st.missed = true, st.last
	}
	return false
}

// spill writes a block that is full. One that cannot be written stays in memory.
func (s *Store) spill(st *stream) error {
	size := int64(len(st.open))
	if size < int64(s.blockSize) {
		return nil
	}
	if err := st.write(s.backing, s.size); err != nil {
		s.err = fmt.Errorf("record: nothing more is kept: %w", err)
		return s.err
	}
	s.size += size
	return nil
}

// recorder is the index of the recorder as it is set.
func (s *Store) recorder(r *survey.Recorder) int {
	n := len(s.recorders)
	if n > 0 && same(s.recorders[n-1], r) {
		return n - 1
	}
	set := *r
	set.Channels, set.Receivers = slices.Clone(r.Channels), slices.Clone(r.Receivers)
	s.recorders = append(s.recorders, &set)
	return n
}

func same(a, b *survey.Recorder) bool {
	return a.RangeScale == b.RangeScale && a.Samples == b.Samples && a.Nominal == b.Nominal &&
		slices.Equal(a.Channels, b.Channels) && slices.Equal(a.Receivers, b.Receivers)
}

// keyOf orders readings by their time, which is 0 or more: the bits of such floats
// are in the order of the floats.
func keyOf(time float64) uint64 { return math.Float64bits(max(time, 0)) }

var (
	pingWords    = 3 + len(flat.flatten(nil, reflect.ValueOf(survey.Fix{})))
	readingWords = len(flat.flatten(nil, reflect.ValueOf(nav.Reading{})))
)

func appendText(dst []byte, text string) []byte {
	return append(binary.AppendUvarint(dst, uint64(len(text))), text...)
}

// appendRows packs the samples of both sides behind how many bytes they take.
func appendRows(dst []byte, port, starboard [][]uint16) []byte {
	const length = 4 // bytes
	at := len(dst)
	dst = append(dst, make([]byte, length)...)
	for _, side := range [2][][]uint16{port, starboard} {
		dst = binary.AppendUvarint(dst, uint64(len(side)))
		for _, row := range side {
			dst = appendRow(dst, row)
		}
	}
	binary.LittleEndian.PutUint32(dst[at:], uint32(len(dst)-at-length))
	return dst
}
