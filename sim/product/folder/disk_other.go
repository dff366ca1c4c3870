//go:build !unix

package folder

import "io/fs"

// syncFolder does nothing where folders cannot be synced.
func syncFolder(string) error {
	step("sync folder")
	return nil
}

// ownedByUs trusts the claim where files have no plain owner.
func ownedByUs(fs.FileInfo) bool { return true }
