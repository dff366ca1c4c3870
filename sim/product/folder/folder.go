package folder

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Folder is a folder in the making.
type Folder struct {
	final   string
	replace bool
	making  *making
	root    *os.Root // of the temporary folder
	files   []Entry
}

// ErrExists is reported for a folder that is already there.
var ErrExists = errors.New("already exists; --force replaces it")

// New begins a folder that will be called path. Unless replace is set, nothing
// may be there yet; what is replaced must be a folder that was made here.
func New(path string, replace bool) (*Folder, error) {
	path = filepath.Clean(path)
	if to, err := filepath.EvalSymlinks(path); err == nil {
		path = to
	}
	parent := filepath.Dir(path)
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return nil, err
	}
	if err := clearAway(path); err != nil {
		return nil, err
	}
	switch info, err := os.Stat(path); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return nil, err
	case !replace:
		return nil, fmt.Errorf("%s %w", path, ErrExists)
	case !info.IsDir():
		return nil, fmt.Errorf("%s is a file, not a folder", path)
	default:
		if _, err := othersIn(path); err != nil {
			return nil, err
		}
	}
	m, err := newMaking(path)
	if err != nil {
		return nil, err
	}
	root, err := os.OpenRoot(m.folder)
	if err != nil {
		return nil, errors.Join(err, m.clear())
	}
	return &Folder{final: path, replace: replace, making: m, root: root}, nil
}

// Write makes a file of the folder. It never writes outside of it, whatever the
// name.
func (f *Folder) Write(name string, write func(io.Writer) error) error {
	entry, err := writeFile(f.root, name, write)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	f.files = append(f.files, entry)
	return nil
}

// Files lists the files written so far.
func (f *Folder) Files() []Entry { return f.files }

// Path is where the folder will be.
func (f *Folder) Path() string { return f.final }

// Commit gives the folder its name. Its list must have been written, last.
func (f *Folder) Commit() error {
	if n := len(f.files); n == 0 || f.files[n-1].Name != ListFile {
		return fmt.Errorf("%s: %s was not written last", f.final, ListFile)
	}
	if err := syncFolder(f.making.folder); err != nil {
		return err
	}
	if err := f.putInPlace(); err != nil {
		return err
	}
	f.root.Close()
	f.root = nil
	return f.making.clear()
}

func (f *Folder) putInPlace() error {
	if f.replace {
		if _, err := os.Lstat(f.final); err == nil {
			return f.exchange()
		}
	}
	if err := f.making.place(f.final); err != nil {
		if errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("%s %w", f.final, ErrExists)
		}
		return err
	}
	return nil
}

// exchange puts the new folder in the place of the old, with what others put
// there.
func (f *Folder) exchange() error {
	others, err := othersIn(f.final)
	if err != nil {
		return err
	}
	for _, name := range others {
		if err := f.keep(name); err != nil {
			return err
		}
	}
	if err := syncFolder(f.making.folder); err != nil {
		return err
	}
	if err := f.making.swap(f.final); err != nil {
		return err
	}
	return f.making.sweep(f.final)
}

// keep links a file of others into the new folder.
func (f *Folder) keep(name string) error {
	step("link")
	err := os.Link(filepath.Join(f.final, name), filepath.Join(f.making.folder, name))
	switch {
	case errors.Is(err, fs.ErrExist):
		return fmt.Errorf("%s has a file %s that dryline did not make, and the new folder has one of that name: move it away", f.final, name)
	case err != nil:
		return fmt.Errorf("%s has a file %s that dryline did not make and cannot keep (%w): move it away", f.final, name, err)
	}
	return nil
}

// Abandon removes what was written. After Commit it does nothing.
func (f *Folder) Abandon() error {
	if f.root == nil {
		return nil
	}
	f.root.Close()
	f.root = nil
	return f.making.clear()
}
