package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// The example of docs/data.md, as it stands there, on the exercise it is told of. What it
// scores has to be what somebody can work by: a bottom within two samples, a ground range
// within a quarter of a metre.
func TestExampleOfTheDataGuide(t *testing.T) {
	if testing.Short() {
		t.Skip("flies a survey for another program")
	}
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import xarray, netCDF4, numpy").Run(); err != nil {
		if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" {
			t.Fatal("xarray, netCDF4 and numpy are not installed for /usr/bin/python3, and DRYLINE_REQUIRE_TOOLS=1 asks for them")
		}
		t.Skip("xarray, netCDF4 and numpy are not installed for /usr/bin/python3; DRYLINE_REQUIRE_TOOLS=1 makes this fail")
	}
	guide, err := os.ReadFile("../../docs/data.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(guide), "```python\n")
	program, _, ends := strings.Cut(rest, "```\n")
	if !found || !ends || strings.Count(program, "\n") > 50 {
		t.Fatalf("docs/data.md has no example in Python of at most fifty lines")
	}
	dir := t.TempDir()
	script, out := filepath.Join(dir, "example.py"), filepath.Join(dir, "out")
	if err := os.WriteFile(script, []byte(program), 0o644); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	if status := Main([]string{"run", "first-line", "-o", out, "--raw", "netcdf"}, &stdout, &stderr); status != exitOK {
		t.Fatalf("status %d: %s", status, stderr.String())
	}
	said, err := exec.Command(python, "-W", "ignore", script, filepath.Join(out, "pings-A-450.nc")).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	for what, most := range map[string]float64{"bottom": 2, "desk": 8, "ground range": 0.25, "position": 3} {
		m := regexp.MustCompile(`(?m)^` + what + `: +([0-9.]+) (samples|m) off`).FindSubmatch(said)
		if m == nil {
			t.Errorf("it says nothing of %s:\n%s", what, said)
			continue
		}
		if v, err := strconv.ParseFloat(string(m[1]), 64); err != nil || v > most || v == 0 {
			t.Errorf("%s is %s off, want more than 0 and at most %g:\n%s", what, m[1], most, said)
		}
	}
}
