package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// ListFile is the name of a folder's list of its own files: a JSON object whose
// "files" are entries. Whoever makes the folder adds what it likes beside them.
const ListFile = "contents.json"

// Entry is one file of a folder.
type Entry struct {
	Name  string `json:"name"`
	Bytes int64  `json:"bytes"`
	Hash  string `json:"sha256"`
}

// longestList is the most bytes of a list that are read.
const longestList = 8 << 20

// readList reads the list of a folder, by name. The list itself is not on it.
func readList(folder string) (map[string]Entry, error) {
	file, err := os.Open(filepath.Join(folder, ListFile))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%s was not made by dryline (it has no %s) and is left alone", folder, ListFile)
	}
	if err != nil {
		return nil, err
	}
	defer file.Close()
	var list struct {
		Files []Entry `json:"files"`
	}
	if err := json.NewDecoder(io.LimitReader(file, longestList)).Decode(&list); err != nil || len(list.Files) == 0 {
		return nil, fmt.Errorf("%s was not made by dryline (its %s lists no files) and is left alone", folder, ListFile)
	}
	byName := map[string]Entry{}
	for _, e := range list.Files {
		byName[e.Name] = e
	}
	return byName, nil
}

// othersIn lists the files of a folder that are not on its own list. It refuses
// a folder in which something could not be kept when it is replaced.
func othersIn(folder string) (others []string, err error) {
	entries, err := os.ReadDir(folder)
	if err != nil || len(entries) == 0 {
		return nil, err
	}
	ours, err := readList(folder)
	if err != nil {
		return nil, err
	}
	for _, e := range entries {
		name := e.Name()
		if name == ListFile {
			continue
		}
		if !e.Type().IsRegular() {
			return nil, fmt.Errorf("%s has a %s %s that dryline did not make: move it away", folder, kindOf(e), name)
		}
		listed, ok := ours[name]
		if !ok {
			others = append(others, name)
			continue
		}
		hash, err := hashOf(filepath.Join(folder, name))
		if err != nil {
			return nil, err
		}
		if hash != listed.Hash {
			return nil, fmt.Errorf("%s: %s was changed since dryline wrote it: move it away or give it another name", folder, name)
		}
	}
	slices.Sort(others)
	return others, nil
}

func kindOf(e fs.DirEntry) string {
	switch {
	case e.IsDir():
		return "folder"
	case e.Type()&fs.ModeSymlink != 0:
		return "link"
	}
	return "special file"
}

// hashOf is the SHA-256 of a file, hex.
func hashOf(path string) (string, error) {
	file, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer file.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, file); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}
