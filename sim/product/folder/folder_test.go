package folder

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// TestMain is the child of TestKilledAtEveryStep when it is told to be.
func TestMain(m *testing.M) {
	if at := os.Getenv("DRYLINE_TEST_DIE_AT"); at != "" {
		n, err := strconv.Atoi(at)
		if err != nil {
			panic(err)
		}
		if os.Getenv("DRYLINE_TEST_TWO_RENAMES") != "" {
			exchange = func(string, string) error { return errors.ErrUnsupported }
		}
		step = func(string) {
			if n--; n == 0 {
				os.Exit(killed)
			}
		}
		if err := build(os.Getenv("DRYLINE_TEST_FOLDER"), "new", true); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

const killed = 7 // exit status of the child that ended at a step

// build makes a folder of two files with a text in them.
func build(path, text string, replace bool) error {
	f, err := New(path, replace)
	if err != nil {
		return err
	}
	defer f.Abandon()
	for _, name := range []string{"a.txt", "b.txt"} {
		if err := f.Write(name, write(text+" "+name)); err != nil {
			return err
		}
	}
	list := struct {
		Files []Entry `json:"files"`
	}{f.Files()}
	if err := f.Write(ListFile, func(w io.Writer) error { return json.NewEncoder(w).Encode(list) }); err != nil {
		return err
	}
	return f.Commit()
}

func write(text string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, text); return err }
}

func content(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// names lists a folder, hidden files and all.
func names(t *testing.T, dir string) string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return strings.Join(all, " ")
}

// A process that ends at any of its operations on the disk leaves the old folder
// or the new one, whole, or one that the next run puts back; it never loses what
// others put there; and the next run clears away what it left.
func TestKilledAtEveryStep(t *testing.T) {
	for _, twoRenames := range []string{"", "yes"} {
		for n := 1; ; n++ {
			root := t.TempDir()
			path := filepath.Join(root, "survey")
			if err := build(path, "old", false); err != nil {
				t.Fatal(err)
			}
			notes := filepath.Join(path, "my-notes.txt")
			if err := os.WriteFile(notes, []byte("mine"), 0o600); err != nil {
				t.Fatal(err)
			}
			child := exec.Command(os.Args[0])
			child.Env = append(os.Environ(), "DRYLINE_TEST_DIE_AT="+strconv.Itoa(n), "DRYLINE_TEST_FOLDER="+path, "DRYLINE_TEST_TWO_RENAMES="+twoRenames)
			out, err := child.CombinedOutput()
			if err != nil && child.ProcessState.ExitCode() != killed {
				t.Fatalf("step %d: %v\n%s", n, err, out)
			}
			done := err == nil
			_, gone := os.Stat(path)
			if gone != nil && twoRenames == "" {
				t.Fatalf("step %d: there is no folder: %v", n, gone)
			}
			if gone == nil {
				was := strings.Fields(content(t, filepath.Join(path, "a.txt")))[0]
				if b := content(t, filepath.Join(path, "b.txt")); b != was+" b.txt" {
					t.Fatalf("step %d: the folder is half %s, half %q", n, was, b)
				}
				if done && was != "new" {
					t.Fatalf("the child ended well, and the folder is the %s one", was)
				}
				if got := content(t, notes); got != "mine" {
					t.Fatalf("step %d: the notes read %q", n, got)
				}
			}
			if err := build(path, "next", true); err != nil {
				t.Fatalf("step %d: the next run: %v", n, err)
			}
			if got := names(t, root); got != "survey" {
				t.Fatalf("step %d: the next run leaves %s", n, got)
			}
			if got := names(t, path); got != "a.txt b.txt contents.json my-notes.txt" {
				t.Fatalf("step %d: the folder holds %s", n, got)
			}
			if got := content(t, notes) + content(t, filepath.Join(path, "a.txt")); got != "minenext a.txt" {
				t.Fatalf("step %d: after the next run: %q", n, got)
			}
			if done {
				if n < 15 {
					t.Fatalf("the child took %d steps, want the whole of making a folder", n)
				}
				break
			}
		}
	}
}

// What dryline did not make is kept, or the folder is left alone.
func TestWhatOthersPutThere(t *testing.T) {
	for _, test := range []struct {
		name    string
		put     func(path string) error
		refused string // part of the error; empty if it is kept
	}{
		{"a file", func(p string) error { return os.WriteFile(filepath.Join(p, "notes.txt"), []byte("x"), 0o644) }, ""},
		{"a hidden file", func(p string) error { return os.WriteFile(filepath.Join(p, ".hidden"), []byte("x"), 0o644) }, ""},
		{"a folder", func(p string) error { return os.Mkdir(filepath.Join(p, "photos"), 0o755) }, "folder photos"},
		{"a link", func(p string) error { return os.Symlink("/etc", filepath.Join(p, "link")) }, "link link"},
		{"a change", func(p string) error { return os.WriteFile(filepath.Join(p, "a.txt"), []byte("mine now"), 0o644) }, "a.txt was changed"},
		{"no list", func(p string) error { return os.Remove(filepath.Join(p, ListFile)) }, "left alone"},
		{"an empty list", func(p string) error {
			return os.WriteFile(filepath.Join(p, ListFile), []byte("{}"), 0o644)
		}, "left alone"},
		{"a list that is none", func(p string) error {
			return os.WriteFile(filepath.Join(p, ListFile), []byte("hello"), 0o644)
		}, "left alone"},
	} {
		root := t.TempDir()
		path := filepath.Join(root, "survey")
		if err := build(path, "old", false); err != nil {
			t.Fatal(err)
		}
		if err := test.put(path); err != nil {
			t.Fatal(err)
		}
		before := names(t, path)
		err := build(path, "new", true)
		if got := names(t, path); got != before {
			t.Errorf("%s: the folder held %s and now %s", test.name, before, got)
		}
		if test.refused == "" && err != nil || test.refused != "" && (err == nil || !strings.Contains(err.Error(), test.refused) || strings.Contains(err.Error(), "\n")) {
			t.Errorf("%s: got %v, want %q", test.name, err, test.refused)
		}
		if got := names(t, root); got != "survey" {
			t.Errorf("%s: left behind: %s", test.name, got)
		}
	}
}

// A file of others that a new product would take the place of stops it.
func TestNamesThatClash(t *testing.T) {
	path := filepath.Join(t.TempDir(), "survey")
	f, err := New(path, false)
	if err != nil {
		t.Fatal(err)
	}
	f.Write("a.txt", write("old"))
	list := func(w io.Writer) error {
		return json.NewEncoder(w).Encode(map[string]any{"files": f.Files()})
	}
	if err := f.Write(ListFile, list); err != nil {
		t.Fatal(err)
	}
	if err := f.Commit(); err != nil {
		t.Fatal(err)
	}
	mine := filepath.Join(path, "b.txt")
	if err := os.WriteFile(mine, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := build(path, "new", true); err == nil || !strings.Contains(err.Error(), "b.txt") {
		t.Errorf("a name that clashes: %v", err)
	}
	if got := content(t, mine); got != "mine" {
		t.Errorf("the file reads %q", got)
	}
}

// Whatever the name, nothing is written outside the folder.
func TestNothingIsWrittenOutside(t *testing.T) {
	root := t.TempDir()
	f, err := New(filepath.Join(root, "survey"), false)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"../evil", "a/../../evil", "/tmp/evil-" + filepath.Base(root), "A/1", "", ".", ".."} {
		if err := f.Write(name, write("x")); err == nil {
			t.Errorf("%q was written", name)
		}
	}
	if err := f.Abandon(); err != nil {
		t.Fatal(err)
	}
	if got := names(t, root); got != "" {
		t.Errorf("left behind: %s", got)
	}
}

// A folder in the making of a run that lives, or something of others that looks
// like one, is left alone.
func TestTheLivingAreLeftAlone(t *testing.T) {
	root := t.TempDir()
	path := filepath.Join(root, "survey")
	first, err := New(path, false)
	if err != nil {
		t.Fatal(err)
	}
	strange := filepath.Join(root, ".survey.making-42.lock")
	if err := os.WriteFile(strange, []byte("my own lock"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Join(root, ".survey.making-42"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := build(path, "second", false); err != nil {
		t.Fatal(err)
	}
	if err := first.Write("a.txt", write("first")); err != nil {
		t.Errorf("the first run's folder is gone: %v", err)
	}
	if err := first.Write(ListFile, write(`{"files":[]}`)); err != nil {
		t.Error(err)
	}
	if err := first.Commit(); !errors.Is(err, ErrExists) {
		t.Errorf("the first run ended second: got %v, want ErrExists", err)
	}
	if err := first.Abandon(); err != nil {
		t.Error(err)
	}
	if got := names(t, root); got != ".survey.making-42 .survey.making-42.lock survey" {
		t.Errorf("there is %s", got)
	}
}

func TestFailedWriteLeavesNothing(t *testing.T) {
	root := t.TempDir()
	path := filepath.Join(root, "deep", "survey")
	f, err := New(path, false)
	if err != nil {
		t.Fatal(err)
	}
	broken := errors.New("no space left on device")
	if err := f.Write("a.txt", func(io.Writer) error { return broken }); !errors.Is(err, broken) {
		t.Errorf("error: got %v, want the writer's", err)
	}
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the folder is there before it is whole: %v", err)
	}
	if err := f.Abandon(); err != nil {
		t.Fatal(err)
	}
	if got := names(t, filepath.Dir(path)); got != "" {
		t.Errorf("left behind: %s", got)
	}
	file := filepath.Join(root, "file")
	os.WriteFile(file, nil, 0o644)
	if _, err := New(filepath.Join(file, "survey"), false); err == nil {
		t.Error("a folder inside a file was begun")
	}
}

// A link to a folder goes on leading to it.
func TestReplacingThroughALink(t *testing.T) {
	root := t.TempDir()
	real, link := filepath.Join(root, "real"), filepath.Join(root, "link")
	if err := build(real, "old", false); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(real, link); err != nil {
		t.Skip(err)
	}
	if err := build(link, "new", true); err != nil {
		t.Fatal(err)
	}
	if got := content(t, filepath.Join(real, "a.txt")); got != "new a.txt" {
		t.Errorf("behind the link: %q", got)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link is one no longer: %v", err)
	}
}
