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
