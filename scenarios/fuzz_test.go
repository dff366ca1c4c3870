package scenarios

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// FuzzParse checks that no file, however broken, gets more out of Parse than
// faults of one line each, and that what it lets pass is within bounds.
//
// A file is a known one with a piece of it cut out and another put in: the piece
// is short, so that the fuzzer does not spend its time shortening whole files.
func FuzzParse(f *testing.F) {
	files := []string{""}
	for _, pattern := range []string{"exercises/*.yaml", "testdata/*.yaml"} {
		found, err := filepath.Glob(pattern)
		if err != nil || len(found) == 0 {
			f.Fatalf("%s: no seeds: %v", pattern, err)
		}
		for _, file := range found {
			source, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			files = append(files, string(source))
			f.Add(uint8(len(files)-1), uint16(0), uint16(0), "")
		}
	}
	least := uint8(len(files) - 1)
	if files[least] != small(f) {
		f.Fatal("the last file is not the small one")
	}
	for _, row := range faultRows {
		for i := 0; i < len(row.edit); i += 2 {
			at := strings.Index(files[least], row.edit[i])
			f.Add(least, uint16(at), uint16(len(row.edit[i])), row.edit[i+1])
		}
	}
	for _, row := range hostileRows(f) {
		if len(row.source) < 4096 { // large seeds only slow the search down
			f.Add(uint8(0), uint16(0), uint16(0), row.source)
		}
	}
	f.Fuzz(func(t *testing.T, file uint8, from, length uint16, piece string) {
		source := files[int(file)%len(files)]
		at := min(int(from), len(source))
		parsed(t, source[:at]+piece+source[min(at+int(length), len(source)):])
	})
}

// parsed checks what Parse makes of a file.
func parsed(t *testing.T, source string) {
	t.Helper()
	e, err := Parse("fuzz.yaml", []byte(source))
	if err != nil {
		fs := Faults(nil)
		if !errors.As(err, &fs) || len(fs) == 0 {
			t.Fatalf("got %T: %v, want faults", err, err)
		}
		readable(t, fs)
		return
	}
	if len(e.Lines) == 0 || len(e.Plan.Order) == 0 || len(e.Sonar.Channels) == 0 || !(e.Plan.Speed > 0) || e.Place.Grid.Zone() == 0 {
		t.Errorf("passed without what every exercise has: %+v", e)
	}
}

// readable checks that each fault is one line that can be shown.
func readable(t *testing.T, fs Faults) {
	t.Helper()
	for _, fault := range fs {
		line := fault.Error()
		if strings.ContainsFunc(line, invisible) || !strings.HasPrefix(line, "fuzz.yaml") || fault.Problem == "" || len(line) > 4000 {
			t.Errorf("fault is not one clear line: %q", line)
		}
	}
}
