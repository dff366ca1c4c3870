package folder

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// exchange has two folders change places in one step; errors.ErrUnsupported if
// the file system cannot. A variable, so that a test can do without.
var exchange = func(a, b string) error { return rename(a, b, unix.RENAME_EXCHANGE) }

// renameNew renames a folder unless something is there already.
func renameNew(from, to string) error {
	err := rename(from, to, unix.RENAME_NOREPLACE)
	if errors.Is(err, errors.ErrUnsupported) {
		return renameUnlessThere(from, to)
	}
	return err
}

func rename(from, to string, flags uint) error {
	err := unix.Renameat2(unix.AT_FDCWD, from, unix.AT_FDCWD, to, flags)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, unix.EINVAL), errors.Is(err, unix.ENOSYS), errors.Is(err, unix.ENOTSUP):
		return errors.ErrUnsupported
	}
	return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
}
