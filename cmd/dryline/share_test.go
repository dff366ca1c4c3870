package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryline/sim/debrief"
)

// An area of which a sliver was never seen is not covered whole: neither the
// command nor the page nor the report says 100 %.
func TestCoverageIsNeverRoundedUp(t *testing.T) {
	if testing.Short() {
		t.Skip("flies a survey")
	}
	source, err := os.ReadFile("../../scenarios/testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	// A spike 0.4 m wide at its foot leaves the swath of the second line, which
	// ends 50 m east of it, and runs on for twelve.
	source = append(source, "\nscore:\n  coverage_percent: 100\n  area: [[165, 210], [215, 210], [215, 299.925], [292, 300.125], [215, 300.325], [215, 390], [165, 390]]\n"...)
	folder := t.TempDir()
	file := filepath.Join(folder, "spike.yaml")
	if err := os.WriteFile(file, source, 0o600); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(folder, "out")
	var stdout, stderr bytes.Buffer
	if status := Main([]string{"run", file, "-o", out}, &stdout, &stderr); status != 0 {
		t.Fatalf("status %d: %s", status, stderr.String())
	}
	var r debrief.Report
	text, err := os.ReadFile(filepath.Join(out, "debrief.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &r); err != nil {
		t.Fatal(err)
	}
	if r.Coverage.Once < 99.95 || r.Coverage.Once >= 100 {
		t.Fatalf("%g %% of the area seen, the test needs what rounds to 100.0", r.Coverage.Once)
	}
	if r.Coverage.Counted < 99.9 || r.Coverage.Counted >= 100 {
		t.Fatalf("%g %% of the area counts, the test needs nearly all", r.Coverage.Counted)
	}
	if !strings.Contains(stdout.String(), "99.9 % of the area looked at in a way that counts;") {
		t.Errorf("of %g %% the command says:\n%s", r.Coverage.Once, stdout.String())
	}
	page, err := os.ReadFile(filepath.Join(out, "debrief.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`<b>99.9 %</b><span>of the area looked at in a way that counts</span>`, `<b>99.9 %</b><span>in the mosaic once`, `at least 100 %`} {
		if !strings.Contains(string(page), want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	covered := regexp.MustCompile(`(?s)Ground looked at.*?</tr>`).FindString(string(page))
	if !strings.Contains(covered, "99.9 % once") || strings.Contains(covered, "All of the ground") || strings.Contains(covered, "Covered as asked") {
		t.Errorf("the page says of the area:\n%s", covered)
	}
	if got := r.Score.Items[0].Got; !strings.HasPrefix(got, "99.9 % counts; the mosaic shows 99.9 % once, ") {
		t.Errorf("the report says %q", got)
	}
}
