package record

import (
	"errors"
	"io"
	"os"
	"sync"
)

// Backing holds the packed bytes of a store. They are only added to; what has been
// written may be read while more is. Close lets go of them.
type Backing interface {
	io.Writer
	io.ReaderAt
	io.Closer
}

// OnDisk returns a backing in a new file of a folder, or of the system's folder
// for temporary files if that is empty. Where the system allows it the file loses
// its name at once, so that nothing is left behind however the program ends;
// elsewhere it goes when the backing is closed. Where there is no disk, as in a
// browser, that is the error.
func OnDisk(folder string) (Backing, error) {
	f, err := os.CreateTemp(folder, "dryline-record-*")
	if err != nil {
		return nil, err
	}
	return &file{File: f, unnamed: os.Remove(f.Name()) == nil}, nil
}

type file struct {
	*os.File
	unnamed bool
}

// Close implements [Backing].
func (f *file) Close() error {
	err := f.File.Close()
	if !f.unnamed {
		err = errors.Join(err, os.Remove(f.Name()))
	}
	return err
}

// InMemoryUpTo returns a backing that takes so many bytes of memory at most and then fails, for where
// there is no disk. It grows by pieces: nothing is copied.
func InMemoryUpTo(most int64) Backing { return &pieces{most: most} }

// ErrFull says that a backing in memory holds as much as it may.
var ErrFull = errors.New("record: the memory set aside for it is full")

const piece = 1 << 22 // bytes

type pieces struct {
	mu   sync.RWMutex
	most int64
	size int64
	list [][]byte
}

// Write implements [Backing].
func (m *pieces) Write(p []byte) (int, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.size+int64(len(p)) > m.most {
		return 0, ErrFull
	}
	for left := p; len(left) > 0; {
		at := m.size % piece
		if at == 0 {
			m.list = append(m.list, make([]byte, piece))
		}
		n := copy(m.list[len(m.list)-1][at:], left)
		m.size, left = m.size+int64(n), left[n:]
	}
	return len(p), nil
}

// ReadAt implements [Backing].
func (m *pieces) ReadAt(p []byte, at int64) (n int, err error) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	for at >= 0 && at < m.size && n < len(p) {
		end := min(int64(piece), m.size-at/piece*piece)
		k := copy(p[n:], m.list[at/piece][at%piece:end])
		n, at = n+k, at+int64(k)
	}
	if n < len(p) {
		return n, io.EOF
	}
	return n, nil
}

// Close implements [Backing].
func (m *pieces) Close() error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.list, m.size = nil, 0
	return nil
}

// InMemory returns a backing that takes memory for all of it, for short sessions
// and tests.
func InMemory() Backing { return new(memory) }

type memory struct {
	mu    sync.RWMutex
	bytes []byte
}

// Write implements [Backing].
func (m *memory) Write(p []byte) (int, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.bytes = append(m.bytes, p...)
	return len(p), nil
}

// ReadAt implements [Backing].
func (m *memory) ReadAt(p []byte, at int64) (int, error) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	if at < 0 || at > int64(len(m.bytes)) {
		return 0, io.EOF
	}
	n := copy(p, m.bytes[at:])
	if n < len(p) {
		return n, io.EOF
	}
	return n, nil
}

// Close implements [Backing].
func (m *memory) Close() error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.bytes = nil
	return nil
}
