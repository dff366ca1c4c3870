package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"

	"dryline/sim/product/folder"
)

// replaceFile writes a file that is there whole or not at all. What a run that dies leaves
// aside, [sweepAside] takes away.
func replaceFile(dir, name string, write func(io.Writer) error) (folder.Entry, error) {
	f, err := os.CreateTemp(dir, "."+name+"-*")
	if err != nil {
		return folder.Entry{}, err
	}
	defer os.Remove(f.Name())
	defer f.Close()
	sum, count := sha256.New(), new(byteCount)
	if err := write(io.MultiWriter(f, sum, count)); err != nil {
		return folder.Entry{}, fmt.Errorf("%s: %w", name, err)
	}
	if err := errors.Join(f.Chmod(0o644), f.Sync(), f.Close()); err != nil {
		return folder.Entry{}, err
	}
	return folder.Entry{Name: name, Bytes: int64(*count), Hash: hex.EncodeToString(sum.Sum(nil))}, os.Rename(f.Name(), filepath.Join(dir, name))
}

type byteCount int64

func (c *byteCount) Write(p []byte) (int, error) {
	*c += byteCount(len(p))
	return len(p), nil
}

// putFile is replaceFile with a text.
func putFile(name string, text []byte) error {
	_, err := replaceFile(filepath.Dir(name), filepath.Base(name), func(w io.Writer) error { _, err := w.Write(text); return err })
	return err
}

var asideName = regexp.MustCompile(`^\.(.+)-[0-9]+$`)

// aside reports whether a file is what replaceFile leaves, when it dies, of one of the names.
func aside(e fs.DirEntry, names []string) bool {
	m := asideName.FindStringSubmatch(e.Name())
	return m != nil && e.Type().IsRegular() && slices.Contains(names, m[1])
}

// sweepAside removes from a folder what runs that died left of files of these names. The
// caller holds the folder's lock, so that no other run is writing them.
func sweepAside(dir string, names []string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if aside(e, names) {
			err = errors.Join(err, os.Remove(filepath.Join(dir, e.Name())))
		}
	}
	return err
}

// writeNew writes a file that is not there yet, whole or not at all.
func writeNew(name string, content []byte) error {
	there := func() error { return usagef("--out: %s is there already", name) }
	if _, err := os.Lstat(name); err == nil {
		return there()
	}
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+"-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(content)
	if err := errors.Join(err, f.Chmod(0o644), f.Sync(), f.Close()); err != nil {
		return err
	}
	switch err := os.Link(f.Name(), name); { // a rename would replace what came there meanwhile
	case errors.Is(err, fs.ErrExist):
		return there()
	case err == nil:
		return nil
	}
	return os.Rename(f.Name(), name) // where files cannot be linked
}
