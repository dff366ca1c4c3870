package lanes

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// What is committed is what the generator writes.
func TestKernelsAreGenerated(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the generator")
	}
	dir := t.TempDir()
	files := []string{"floor_amd64.s", "floor_amd64.go"}
	run := exec.Command("go", "run", "-tags", "purego", "./gen", "-pkg", "lanes", "-out", filepath.Join(dir, files[0]), "-stubs", filepath.Join(dir, files[1]))
	if out, err := run.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, name := range files {
		got, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		want, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		_, got, _ = bytes.Cut(got, []byte("\n")) // the first line tells the command
		_, want, _ = bytes.Cut(want, []byte("\n"))
		if !bytes.Equal(got, want) {
			t.Errorf("%s is not what gen writes: go generate ./seabed/lanes", name)
		}
	}
}

// The AVX2 forms name nothing that a machine without AVX-512 lacks: the generator, short of
// registers, takes those above 15 without a word.
func TestAVX2NeedsNoMore(t *testing.T) {
	text, err := os.ReadFile("floor_amd64.s")
	if err != nil {
		t.Fatal(err)
	}
	above := regexp.MustCompile(`\b([XY](1[6-9]|2\d|3[01])|Z\d+|K[0-7])\b`)
	function, met := "", 0
	for _, line := range strings.Split(string(text), "\n") {
		if strings.HasPrefix(line, "TEXT") {
			function = line
		}
		if !strings.Contains(function, "AVX2(SB)") {
			continue
		}
		met++
		if r := above.FindString(line); r != "" {
			t.Errorf("%s: %s in %s", function, r, line)
		}
	}
	if met < 100 {
		t.Errorf("%d lines of AVX2", met)
	}
}
