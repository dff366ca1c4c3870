package scenarios

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestEmbedded(t *testing.T) {
	files, err := filepath.Glob("exercises/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no exercises: %v", err)
	}
	infos := Embedded()
	if len(infos) != len(files) {
		t.Fatalf("got %d exercises, want %d", len(infos), len(files))
	}
	found := false
	for i, info := range infos {
		e, err := Load(files[i])
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		if info.Name != e.Name || info.Title != e.Title || info.Briefing == "" {
			t.Errorf("got %+v, want the exercise of %s", info, files[i])
		}
		same, err := Find(info.Name)
		if err != nil || same.Hash != e.Hash {
			t.Errorf("Find(%q): got %v, want what Load reads", info.Name, err)
		}
		found = found || info.Name == Default
	}
	if !found {
		t.Errorf("no exercise is called %s, the default", Default)
	}
}

func TestFindErrors(t *testing.T) {
	for _, row := range []struct{ name, want string }{
		{"disused-anchorige", `no exercise is called "disused-anchorige"; did you mean disused-anchorage?`},
		{"First-Line", `no exercise is called "First-Line"; did you mean first-line?`},
		{"moon", `no exercise is called "moon"; there are ` + strings.Join(names(), ", ")},
		{"../exercises/first-line", `no exercise is called "../exercises/first-line"; there are ` + strings.Join(names(), ", ")},
		{"", `no exercise is called ""; there are ` + strings.Join(names(), ", ")},
	} {
		if _, err := Find(row.name); err == nil || err.Error() != row.want {
			t.Errorf("Find(%q): got %v, want %s", row.name, err, row.want)
		}
	}
}

func TestLoadErrors(t *testing.T) {
	dir := t.TempDir()
	if _, err := Load(filepath.Join(dir, "none.yaml")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("got %v, want that there is no such file", err)
	}
	if _, err := Load(dir); err == nil {
		t.Error("a directory was read as an exercise")
	}
	large := filepath.Join(dir, "large.yaml")
	if err := os.WriteFile(large, make([]byte, maxSource+1), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Load(large); err == nil || err.Error() != large+": is too large for an exercise (want at most 1 MiB)" {
		t.Errorf("got %v, want that it is too large", err)
	}
}

func TestFirstSentence(t *testing.T) {
	for _, row := range []struct{ text, want string }{
		{"One line.\nAnd more. And more.", "One line."},
		{"Ends here.", "Ends here."},
		{"Of 0.5 kn\nand more", "Of 0.5 kn and more"},
	} {
		if got := firstSentence(row.text); got != row.want {
			t.Errorf("got %q, want %q", got, row.want)
		}
	}
}
