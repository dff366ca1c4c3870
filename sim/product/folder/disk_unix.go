//go:build unix

package folder

import (
	"io/fs"
	"os"
	"syscall"
)

// syncFolder has the disk keep the names in a folder.
func syncFolder(path string) error {
	step("sync folder")
	dir, err := os.Open(path)
	if err != nil {
		return err
	}
	defer dir.Close()
	return dir.Sync()
}

// ownedByUs reports whether a file belongs to whoever runs this program.
func ownedByUs(info fs.FileInfo) bool {
	stat, ok := info.Sys().(*syscall.Stat_t)
	return !ok || int(stat.Uid) == os.Getuid()
}
