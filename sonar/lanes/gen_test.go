package lanes

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// What is committed is what the generator writes.
func TestKernelsAreGenerated(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the generator")
	}
	dir := t.TempDir()
	files := []string{"lanes_amd64.s", "lanes_amd64.go"}
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
			t.Errorf("%s is not what gen writes: go generate ./sonar/lanes", name)
		}
	}
}
