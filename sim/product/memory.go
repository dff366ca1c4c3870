package product

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"

	"dryline/sim/product/folder"
)

// Memory is a [Sink] that keeps the files in memory.
type Memory struct {
	content map[string][]byte
	entries []folder.Entry
}

// Write implements [Sink].
func (m *Memory) Write(name string, write func(io.Writer) error) error {
	if _, twice := m.content[name]; twice {
		return fmt.Errorf("%s was written already", name)
	}
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if m.content == nil {
		m.content = map[string][]byte{}
	}
	sum := sha256.Sum256(b.Bytes())
	m.content[name] = b.Bytes()
	m.entries = append(m.entries, folder.Entry{Name: name, Bytes: int64(b.Len()), Hash: hex.EncodeToString(sum[:])})
	return nil
}

// Files implements [Sink].
func (m *Memory) Files() []folder.Entry { return m.entries }

// Content returns the bytes of a file, nil if there is none of that name.
func (m *Memory) Content(name string) []byte { return m.content[name] }
