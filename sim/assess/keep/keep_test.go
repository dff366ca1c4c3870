package keep_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"dryline/sim/assess"
	"dryline/sim/assess/keep"
)

func TestTheInstallationsKeyIsMadeOnce(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"XDG_CONFIG_HOME", "HOME", "AppData"} {
		t.Setenv(name, dir)
	}
	first, err1 := keep.Installation()
	again, err2 := keep.Installation()
	if err := errors.Join(err1, err2); err != nil || first.String() != again.String() {
		t.Fatalf("another key the second time, %v", err)
	}
	found := 0
	filepath.WalkDir(dir, func(path string, d fs.DirEntry, _ error) error {
		if text, err := os.ReadFile(path); err == nil && strings.Contains(string(text), first.String()) {
			found++
			if info, err := d.Info(); err == nil && runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
				t.Errorf("%s has mode %v, want 0600", path, info.Mode())
			}
		}
		return nil
	})
	if found != 1 {
		t.Errorf("the key lies in %d files, want 1", found)
	}
	for want := 1; want <= 3; want++ {
		if got, err := keep.Begun(); err != nil || got != want {
			t.Errorf("begun %d, %v; want %d", got, err, want)
		}
	}
}

func TestKeysOfFiles(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "a.key")
	public, err := keep.NewPrivate(file, "a key")
	if err != nil {
		t.Fatal(err)
	}
	if key, err := keep.Private(file); err != nil || key.Recipient().String() != public.String() {
		t.Errorf("read back: %v, %v", key, err)
	}
	if _, err := keep.NewPrivate(file, "a key"); !errors.Is(err, fs.ErrExist) {
		t.Errorf("in place of another: %v", err)
	}
	printed := filepath.Join(dir, "a.pub")
	os.WriteFile(printed, []byte("# for trainees\n"+public.String()+"\n"), 0o644)
	for _, text := range []string{printed, public.String()} {
		if key, err := keep.Public(text); err != nil || key.String() != public.String() {
			t.Errorf("%s: %v, %v", text, key, err)
		}
	}
	empty := filepath.Join(dir, "empty")
	os.WriteFile(empty, nil, 0o644)
	for _, text := range []string{file, empty, "age1x", public.String() + "x"} {
		if _, err := keep.Public(text); !errors.Is(err, keep.ErrNoKey) {
			t.Errorf("public of %s: %v", text, err)
		}
	}
	for _, text := range []string{printed, empty} {
		if _, err := keep.Private(text); !errors.Is(err, keep.ErrNoKey) {
			t.Errorf("private of %s: %v", text, err)
		}
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".key-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestBox(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "handed-in")
	if _, err := keep.Open(folder); err == nil {
		t.Error("a box is opened that is not there")
	}
	b, err := keep.New(folder)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := keep.New(folder); err == nil || !strings.Contains(err.Error(), "under way") {
		t.Errorf("a second: %v", err)
	}
	if _, err := keep.Open(folder); err == nil || !strings.Contains(err.Error(), "another program") {
		t.Errorf("opened twice: %v", err)
	}
	if err := errors.Join(b.Put(assess.LogFile, []byte("a\n")), b.Append(assess.LogFile, []byte("b\n")), b.Put(assess.StateFile, []byte("1")), b.Put(assess.StateFile, []byte("2")), b.Close()); err != nil {
		t.Fatal(err)
	}
	if b, err = keep.Open(folder); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{assess.LogFile: "a\nb\n", assess.StateFile: "2"} {
		if got, err := b.Read(name); err != nil || string(got) != want {
			t.Errorf("%s: %q, %v", name, got, err)
		}
	}
	mine := filepath.Join(keep.UnderWay(folder), "notes.txt")
	if err := os.WriteFile(mine, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := b.Remove(); err == nil {
		t.Error("a folder with a file of others is said to be gone")
	}
	if left, _ := os.ReadDir(keep.UnderWay(folder)); len(left) != 1 || left[0].Name() != "notes.txt" {
		t.Errorf("left: %v", left)
	}
}
