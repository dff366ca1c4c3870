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
func FuzzParse(f *testing.F) {
	for _, pattern := range []string{"exercises/*.yaml", "testdata/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			f.Fatalf("%s: no seeds: %v", pattern, err)
		}
		for _, file := range files {
			source, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(source)
		}
	}
	for _, row := range faultRows {
		f.Add([]byte(edit(f, small(f), row.edit...)))
	}
	for _, row := range hostileRows(f) {
		if len(row.source) < 4096 { // large seeds only slow the search down
			f.Add([]byte(row.source))
		}
	}
	f.Fuzz(func(t *testing.T, source []byte) {
		e, err := Parse("fuzz.yaml", source)
		if err != nil {
			fs := Faults(nil)
			if !errors.As(err, &fs) || len(fs) == 0 {
				t.Fatalf("got %T: %v, want faults", err, err)
			}
			for _, fault := range fs {
				line := fault.Error()
				if strings.ContainsAny(line, "\n\r\x00\x1b") || !strings.HasPrefix(line, "fuzz.yaml") || len(line) > 4000 {
					t.Errorf("fault is not one clear line: %q", line)
				}
			}
			return
		}
		if len(e.Lines) == 0 || len(e.Plan.Order) == 0 || len(e.Sonar.Channels) == 0 || !(e.Plan.Speed > 0) || e.Place.Grid.Zone() == 0 {
			t.Errorf("passed without what every exercise has: %+v", e)
		}
	})
}
