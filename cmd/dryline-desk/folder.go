//go:build !js

package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"dryline/cmd/dryline-desk/app"
)

const isUnix = runtime.GOOS != "windows" && runtime.GOOS != "darwin"

// hasSound reports whether there is something to play sounds on. Where it has to
// be asked, asking in vain would end the window.
func hasSound() bool {
	if !isUnix {
		return true
	}
	cards, _ := filepath.Glob("/dev/snd/pcm*p")
	if len(cards) > 0 {
		return true
	}
	for _, socket := range []string{os.Getenv("PULSE_SERVER"), filepath.Join(os.Getenv("XDG_RUNTIME_DIR"), "pulse", "native")} {
		if _, err := os.Stat(strings.TrimPrefix(socket, "unix:")); err == nil {
			return true
		}
	}
	return false
}

// folder keeps things in files: settings where the system keeps them, sessions
// and reports in a folder of the person's.
type folder struct{ out string }

func newFolder(out string) *folder { return &folder{out} }

func settingsFile() (string, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(dir, "dryline", "window.json"), nil
}

// Settings implements [app.Store].
func (f *folder) Settings() ([]byte, error) {
	name, err := settingsFile()
	if err != nil {
		return nil, err
	}
	data, err := os.ReadFile(name)
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	return data, err
}

// KeepSettings implements [app.Store].
func (f *folder) KeepSettings(data []byte) error {
	name, err := settingsFile()
	if err != nil {
		return err
	}
	return write(name, data)
}

// SetAside implements [app.Store].
func (f *folder) SetAside() (string, error) {
	name, err := settingsFile()
	if err != nil {
		return "", err
	}
	aside := name + ".broken"
	for n := 2; ; n++ { // one set aside before stays
		if _, err := os.Stat(aside); errors.Is(err, os.ErrNotExist) {
			return aside, os.Rename(name, aside)
		}
		aside = fmt.Sprintf("%s.broken-%d", name, n)
	}
}

// Save implements [app.Store]. A name that is taken gets a number.
func (f *folder) Save(name string, data []byte) (string, error) {
	file, err := f.fresh(name)
	if err != nil {
		return "", err
	}
	path := file.Name()
	if err := errors.Join(file.Close(), write(path, data)); err != nil {
		os.Remove(path) // it holds nothing
		return "", err
	}
	return path, nil
}

// fresh makes a file that was not there, under a name or, if that is taken, the
// name with a number.
func (f *folder) fresh(name string) (*os.File, error) {
	if err := os.MkdirAll(f.out, folderMode); err != nil {
		return nil, err
	}
	path, ext := filepath.Join(f.out, name), filepath.Ext(name)
	for n := 2; ; n++ {
		file, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY|os.O_APPEND, fileMode)
		if !errors.Is(err, os.ErrExist) {
			return file, err
		}
		path = filepath.Join(f.out, fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, ext), n, ext))
	}
}

// Modes of what is written, those of the command line: what the person's mask
// takes from them is taken.
const (
	fileMode   = 0o644
	folderMode = 0o755
)

// write puts a file in place of what has its name, whole or not at all.
func write(name string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(name), folderMode); err != nil {
		return err
	}
	aside := fmt.Sprintf("%s.%d.new", name, os.Getpid())
	file, err := os.OpenFile(aside, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, fileMode)
	if err != nil {
		return err
	}
	_, err = file.Write(data)
	if err == nil {
		err = file.Sync() // or a machine that dies now leaves an empty file
	}
	if err = errors.Join(err, file.Close()); err == nil {
		err = os.Rename(aside, name)
	}
	if err != nil {
		os.Remove(aside)
	}
	return err
}

// mostListed bounds the sessions that are listed.
const mostListed = 200

// Sessions implements [app.Store].
func (f *folder) Sessions() []app.SavedSession {
	names, _ := filepath.Glob(filepath.Join(f.out, "*.jsonl"))
	more, _ := filepath.Glob(filepath.Join(f.out, "*", "session.jsonl"))
	var list []app.SavedSession
	for _, n := range append(names, more...) {
		info, err := os.Stat(n)
		if err != nil {
			continue
		}
		s := app.SavedSession{Name: n, When: info.ModTime(), Read: func() ([]byte, error) { return readLog(n, f.out) }}
		if underWay(n) {
			s.Where = n
		}
		list = append(list, s)
	}
	slices.SortStableFunc(list, func(a, b app.SavedSession) int { return b.When.Compare(a.When) })
	return list[:min(len(list), mostListed)]
}

// underWay reports whether a file is of a watch left half way, which the window
// wrote and may go on writing.
func underWay(name string) bool {
	ok, _ := filepath.Match("*-watch*.jsonl", filepath.Base(name))
	return ok
}

// Pick implements [app.Store]: the folder's sessions are all listed, and others
// are named when the program is started.
func (f *folder) Pick(func(string, []byte, error)) {}

// Poll implements [app.Store].
func (f *folder) Poll() {}

// Files implements [app.Store].
func (f *folder) Files() bool { return true }

// Show implements [app.Store].
func (f *folder) Show(where string) error {
	path, err := filepath.Abs(where)
	if err != nil {
		return err
	}
	var c *exec.Cmd
	switch runtime.GOOS {
	case "windows":
		c = exec.Command("rundll32", "url.dll,FileProtocolHandler", path)
	case "darwin":
		c = exec.Command("open", path)
	default:
		c = exec.Command("xdg-open", path)
	}
	return c.Start()
}
