//go:build unix

package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/hajimehoshi/ebiten/v2"
)

// Whatever the person's mask allows, what the window writes is writable by nobody
// else; and what the mask takes away stays away.
func TestNobodyElseMayWriteWhatTheWindowWrites(t *testing.T) {
	for _, mask := range []struct {
		mask         int
		file, folder fs.FileMode
	}{{0, 0o644, 0o755}, {0o077, 0o600, 0o700}} {
		old := syscall.Umask(mask.mask) // what is started takes it over
		h := newHome(t)
		if err := os.MkdirAll(filepath.Dir(h.settings()), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(h.settings(), []byte("broken"), 0o600); err != nil {
			t.Fatal(err)
		}
		mine := map[string]bool{filepath.Join(h.dir, "config"): true, filepath.Dir(h.settings()): true, h.dir: true}
		d := openDesk(t, h, 1024, 600, "first-line")
		d.tap(ebiten.KeyT, ebiten.KeyPageDown)
		d.until("a while", 600, func(s *shown) bool { return s.watch.Tick > 12 })
		d.close()
		d = openDesk(t, h, 1280, 720, h.logs(t, "*-watch.jsonl")[0])
		d.until("it is back", 2400, func(s *shown) bool { return s.watch.Restored == 1 })
		d.tap(ebiten.KeyPageDown)
		d.picture("on watch") // kept by the test itself, elsewhere
		d.toDebrief(600)
		d.tap(ebiten.KeyS)
		d.until("the report is saved", 60000, func(s *shown) bool { return contains(s.Notice, "The report is in") })
		d.close()
		syscall.Umask(old)
		files := 0
		err := filepath.WalkDir(h.dir, func(path string, e fs.DirEntry, err error) error {
			if err != nil || mine[path] {
				return err
			}
			info, err := e.Info()
			if err != nil {
				return err
			}
			want := mask.file
			if e.IsDir() {
				want = mask.folder
			} else {
				files++
			}
			if filepath.Ext(path) == ".broken" {
				return nil // it stays as the person had it
			}
			if got := info.Mode().Perm(); got != want {
				t.Errorf("mask %03o: %s has mode %03o, want %03o", mask.mask, path, got, want)
			}
			return nil
		})
		if err != nil || files < 5 { // told, settings and the broken ones, session, report
			t.Errorf("mask %03o: %d files (%v), want five or more", mask.mask, files, err)
		}
	}
}
