package folder

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/gofrs/flock"
)

// making is a temporary folder beside the place of the one it becomes, with the
// lock that shows its run is alive and, while one is replaced by two renames,
// the old folder moved aside.
type making struct {
	folder, aside, lock string
	held                *flock.Flock
}

const lockEnding = ".lock"

// claim is the text of a lock file, so that nothing else is taken for one.
type claim struct {
	Making string `json:"dryline_is_making"` // name of the folder
}

// prefix begins the names of temporary folders; a long name is cut so that the
// file system takes it.
func prefix(final string) string {
	name := filepath.Base(final)
	return "." + name[:min(len(name), 100)] + ".making-"
}

func makingOf(lock string) *making {
	folder := strings.TrimSuffix(lock, lockEnding)
	return &making{folder: folder, aside: folder + ".old", lock: lock}
}

// newMaking makes an empty temporary folder, locked.
func newMaking(final string) (*making, error) {
	for {
		step("create lock")
		file, err := os.CreateTemp(filepath.Dir(final), prefix(final)+"*"+lockEnding)
		if err != nil {
			return nil, err
		}
		m := makingOf(file.Name())
		err = errors.Join(json.NewEncoder(file).Encode(claim{filepath.Base(final)}), file.Close())
		if err != nil {
			return nil, errors.Join(err, os.Remove(m.lock))
		}
		if ok, err := m.take(); err != nil {
			return nil, errors.Join(err, os.Remove(m.lock))
		} else if !ok {
			continue // another run took it for one of a dead run, and clears it away
		}
		step("make folder")
		if err := os.Mkdir(m.folder, 0o755); err != nil {
			return nil, errors.Join(err, m.clear())
		}
		return m, nil
	}
}

// take takes the lock, if nobody has it and it is still there afterwards.
func (m *making) take() (bool, error) {
	held := flock.New(m.lock, flock.SetFlag(os.O_RDWR))
	ok, err := held.TryLock()
	if err != nil || !ok {
		if errors.Is(err, fs.ErrNotExist) {
			err = nil
		}
		return false, err
	}
	m.held = held
	locked, err1 := held.Stat()
	named, err2 := os.Lstat(m.lock)
	if err1 != nil || err2 != nil || !os.SameFile(locked, named) {
		m.held.Unlock()
		return false, nil
	}
	return true, nil
}

// place gives the temporary folder its name where there was none.
func (m *making) place(final string) error {
	step("place")
	if err := renameNew(m.folder, final); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(final))
}

// swap puts the temporary folder in the place of the old one, which then is the
// temporary one.
func (m *making) swap(final string) error {
	step("exchange")
	err := exchange(m.folder, final)
	if errors.Is(err, errors.ErrUnsupported) {
		err = m.swapInTwo(final)
	}
	return errors.Join(err, syncFolder(filepath.Dir(final)))
}

// swapInTwo does it where folders cannot be exchanged. A run killed after the
// first rename is put right by the next, see [clearAway].
func (m *making) swapInTwo(final string) error {
	step("move aside")
	if err := os.Rename(final, m.aside); err != nil {
		return err
	}
	step("place")
	if err := os.Rename(m.folder, final); err != nil {
		return errors.Join(err, os.Rename(m.aside, final))
	}
	return nil
}

// sweep removes the old folder after the swap. A file that others put there in
// the meantime is taken along first.
func (m *making) sweep(final string) error {
	for _, old := range []string{m.folder, m.aside} {
		entries, err := os.ReadDir(old)
		if errors.Is(err, fs.ErrNotExist) || err == nil && len(entries) == 0 {
			continue
		}
		if err != nil {
			return err
		}
		others, err := othersIn(old)
		if err != nil {
			return fmt.Errorf("the old folder is left: %w", err)
		}
		for _, name := range others {
			step("link late")
			if err := os.Link(filepath.Join(old, name), filepath.Join(final, name)); err != nil && !errors.Is(err, fs.ErrExist) {
				return fmt.Errorf("%s is left where it is: %w", filepath.Join(old, name), err)
			}
			if err := sameFile(filepath.Join(old, name), filepath.Join(final, name)); err != nil {
				return err
			}
		}
	}
	return nil
}

func sameFile(a, b string) error {
	ia, err := os.Lstat(a)
	if err != nil {
		return err
	}
	ib, err := os.Lstat(b)
	if err != nil {
		return err
	}
	if !os.SameFile(ia, ib) {
		return fmt.Errorf("%s is left where it is: %s is another file", a, b)
	}
	return nil
}

// clear removes the temporary folder, the one moved aside, and the lock.
func (m *making) clear() error {
	for _, dir := range []string{m.folder, m.aside} {
		if err := removeFolder(dir); err != nil {
			return err
		}
	}
	step("remove lock")
	err := os.Remove(m.lock) // while it is held, so that nobody else takes it up
	if unlocked := m.held.Unlock(); err != nil {
		err = errors.Join(os.Remove(m.lock), unlocked) // some systems remove no open file
	}
	return err
}

// removeFolder removes a folder of plain files, one by one.
func removeFolder(dir string) error {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	for _, e := range entries {
		step("remove file")
		if err := os.Remove(filepath.Join(dir, e.Name())); err != nil {
			return err
		}
	}
	step("remove folder")
	return os.Remove(dir)
}

// clearAway clears away what killed runs of the same folder left, and puts a
// folder back that one of them had moved aside.
func clearAway(final string) error {
	dir := filepath.Dir(final)
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		name := e.Name()
		if !strings.HasPrefix(name, prefix(final)) || !strings.HasSuffix(name, lockEnding) || !e.Type().IsRegular() {
			continue
		}
		m := makingOf(filepath.Join(dir, name))
		if !m.claims(final) {
			continue
		}
		if ok, err := m.take(); err != nil || !ok {
			continue // alive, or not ours to judge
		}
		if err := m.putRight(final); err != nil {
			return fmt.Errorf("what a run that was killed left cannot be cleared away: %w", err)
		}
	}
	return nil
}

// claims reports whether the lock file is of a run of ours that made the folder.
func (m *making) claims(final string) bool {
	info, err := os.Lstat(m.lock)
	if err != nil || !ownedByUs(info) {
		return false
	}
	file, err := os.Open(m.lock)
	if err != nil {
		return false
	}
	defer file.Close()
	var c claim
	err = json.NewDecoder(io.LimitReader(file, 1<<16)).Decode(&c)
	return err == nil && c.Making == filepath.Base(final)
}

// putRight ends what a killed run had begun.
func (m *making) putRight(final string) error {
	_, gone := os.Lstat(final)
	if _, err := os.Lstat(m.aside); err == nil && errors.Is(gone, fs.ErrNotExist) {
		step("put back")
		if err := os.Rename(m.aside, final); err != nil {
			return err
		}
		return m.clear()
	}
	if gone == nil && m.whole() {
		if err := m.sweep(final); err != nil {
			return err
		}
	}
	return m.clear()
}

// whole reports whether one of the temporary folders is an old one that was
// replaced, so that it may hold what others put there: it has a list. (So has
// one just about to be placed, for which the sweep finds nothing to do.)
func (m *making) whole() bool {
	for _, dir := range []string{m.folder, m.aside} {
		if _, err := os.Lstat(filepath.Join(dir, ListFile)); err == nil {
			return true
		}
	}
	return false
}
