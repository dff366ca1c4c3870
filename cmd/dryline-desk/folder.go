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
	path := filepath.Join(f.out, name)
	ext := filepath.Ext(name)
	for n := 2; ; n++ {
		if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
			break
		}
		path = filepath.Join(f.out, fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, ext), n, ext))
	}
	return path, write(path, data)
}

// Keep implements [app.Store].
func (f *folder) Keep(where, name string, log []byte) (string, error) {
	if where == "" {
		return f.Save(name, log)
	}
	return where, write(where, log)
}

// Drop implements [app.Store].
func (f *folder) Drop(where string) error { return os.Remove(where) }

// write writes a file whole or not at all.
func write(name string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		return err
	}
	t, err := os.CreateTemp(filepath.Dir(name), ".dryline-*")
	if err != nil {
		return err
	}
	defer os.Remove(t.Name())
	if _, err := t.Write(data); err != nil {
		t.Close()
		return err
	}
	if err := t.Close(); err != nil {
		return err
	}
	if err := os.Chmod(t.Name(), 0o666); err != nil {
		return err
	}
	return os.Rename(t.Name(), name)
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
		s := app.SavedSession{Name: n, When: info.ModTime(), Read: func() ([]byte, error) { return os.ReadFile(n) }}
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
