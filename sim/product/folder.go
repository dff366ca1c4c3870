package product

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
	final, temporary string
	replace          bool
	files            []string
}

// ErrExists is reported for a folder that is already there.
var ErrExists = errors.New("already exists; --force replaces it")

// NewFolder begins a folder that will be called path. Unless replace is set,
// nothing may be there yet; what is replaced must be a folder Dryline made.
func NewFolder(path string, replace bool) (*Folder, error) {
	path = filepath.Clean(path)
	if info, err := os.Stat(path); err == nil {
		switch {
		case !replace:
			return nil, fmt.Errorf("%s %w", path, ErrExists)
		case !info.IsDir():
			return nil, fmt.Errorf("%s is a file, not a folder", path)
		case !isOurs(path):
			return nil, fmt.Errorf("%s was not made by dryline (it has no %s) and is left alone", path, SessionFile)
		}
	} else if !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	parent := filepath.Dir(path)
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return nil, err
	}
	temporary, err := os.MkdirTemp(parent, "."+filepath.Base(path)+".making-")
	if err != nil {
		return nil, err
	}
	if err := os.Chmod(temporary, 0o755); err != nil {
		return nil, errors.Join(err, os.RemoveAll(temporary))
	}
	return &Folder{final: path, temporary: temporary, replace: replace}, nil
}

// isOurs reports whether a folder may be replaced: it is empty or holds a
// session log.
func isOurs(path string) bool {
	entries, err := os.ReadDir(path)
	if err != nil {
		return false
	}
	for _, e := range entries {
		if e.Name() == SessionFile {
			return true
		}
	}
	return len(entries) == 0
}

// Write makes a file of the folder.
func (f *Folder) Write(name string, write func(io.Writer) error) error {
	file, err := os.Create(filepath.Join(f.temporary, name))
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	err = write(file)
	if closed := file.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	f.files = append(f.files, name)
	return nil
}

// Files lists the files written so far.
func (f *Folder) Files() []string { return f.files }

// Commit gives the folder its name.
func (f *Folder) Commit() error {
	if f.replace {
		if _, err := os.Stat(f.final); err == nil {
			// The old folder goes only when the new one is in its place.
			aside := f.temporary + "-old"
			if err := os.Rename(f.final, aside); err != nil {
				return err
			}
			if err := os.Rename(f.temporary, f.final); err != nil {
				return errors.Join(err, os.Rename(aside, f.final))
			}
			return os.RemoveAll(aside)
		}
	}
	// Rename onto an empty folder would succeed and onto a full one fail; what
	// appeared there meanwhile is not ours to judge.
	if _, err := os.Stat(f.final); err == nil {
		return fmt.Errorf("%s %w", f.final, ErrExists)
	}
	return os.Rename(f.temporary, f.final)
}

// Abandon removes what was written. After Commit it does nothing.
func (f *Folder) Abandon() error { return os.RemoveAll(f.temporary) }
