package folder

import (
	"io/fs"
	"os"
)

// renameUnlessThere renames a folder after a look whether something is there:
// renaming onto an empty folder would succeed.
func renameUnlessThere(from, to string) error {
	if _, err := os.Lstat(to); err == nil {
		return fs.ErrExist
	}
	return os.Rename(from, to)
}
