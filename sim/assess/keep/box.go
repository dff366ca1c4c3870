package keep

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"

	"dryline/sim/assess"
)

// underWay names the folder of an assessment under way after the one that is
// handed in.
const underWay = ".under-way"

const lockFile = "lock"

// Box is an [assess.Box] in a folder of its own, beside the one that is handed in.
type Box struct {
	root *os.Root
	path string
	held *flock.Flock
}

// UnderWay is where an assessment lies until it is handed in in a folder.
func UnderWay(folder string) string { return filepath.Clean(folder) + underWay }

// New makes an empty box for what is to be handed in in a folder.
func New(folder string) (*Box, error) {
	path := UnderWay(folder)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return nil, err
	}
	if err := os.Mkdir(path, 0o755); err != nil {
		if errors.Is(err, fs.ErrExist) {
			return nil, fmt.Errorf("%s already exists: an assessment is under way there; dryline assess resume continues it", path)
		}
		return nil, err
	}
	return open(path)
}

// Open opens the box of what is to be handed in in a folder. Nobody else can resume it
// meanwhile.
func Open(folder string) (*Box, error) {
	path := UnderWay(folder)
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%s is not there: no assessment is under way for %s", path, folder)
	}
	return open(path)
}

func open(path string) (*Box, error) {
	root, err := os.OpenRoot(path)
	if err != nil {
		return nil, err
	}
	held := flock.New(filepath.Join(path, lockFile))
	ok, err := held.TryLock()
	if err == nil && !ok {
		err = fmt.Errorf("%s: another program has it open", path)
	}
	if err != nil {
		root.Close()
		return nil, err
	}
	return &Box{root, path, held}, nil
}

// Read implements [assess.Box].
func (b *Box) Read(name string) ([]byte, error) { return b.root.ReadFile(name) }

// Put implements [assess.Box].
func (b *Box) Put(name string, content []byte) error {
	aside := name + ".new"
	if err := b.write(aside, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, content); err != nil {
		return err
	}
	return b.root.Rename(aside, name)
}

// Append implements [assess.Box].
func (b *Box) Append(name string, content []byte) error {
	return b.write(name, os.O_APPEND|os.O_WRONLY, content)
}

func (b *Box) write(name string, how int, content []byte) error {
	f, err := b.root.OpenFile(name, how, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(content)
	if err == nil {
		err = f.Sync() // or after a loss of power the log may be behind the state that continues it
	}
	return errors.Join(err, f.Close())
}

// Close lets others resume it.
func (b *Box) Close() error { return errors.Join(b.root.Close(), b.held.Unlock()) }

// Remove takes the box away, when all of it was handed in. What others put there stays.
func (b *Box) Remove() error {
	for _, name := range []string{assess.StateFile, assess.LogFile, assess.SecretFile, assess.KeyFile, lockFile} {
		if err := b.root.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	b.root.Close()
	b.held.Unlock()
	err := os.Remove(b.path)
	if err != nil {
		return fmt.Errorf("what was under way is handed in, but its folder is left: %w", err)
	}
	return nil
}
