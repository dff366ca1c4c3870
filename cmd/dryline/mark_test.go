package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryline/sim/debrief"
	"dryline/sim/provenance"
)

// A session is marked as it was debriefed; what another engine flew, and cannot be
// shown to be the same survey, gets no verdict.
func TestMark(t *testing.T) {
	dir := t.TempDir()
	records := flownPond(t, dir)
	first := filepath.Join(dir, "first")
	var out, complaints bytes.Buffer
	if status := Main([]string{"mark", filepath.Join(first, "session.jsonl"), "--json"}, &out, &complaints); status != exitOK {
		t.Fatal(complaints.String())
	}
	var marked, handed debrief.Report
	if err := json.Unmarshal(out.Bytes(), &marked); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(first, "debrief.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &handed); err != nil {
		t.Fatal(err)
	}
	if a, b := marked.Score, handed.Score; a.Points != b.Points || a.Verdict != b.Verdict || len(a.Items) != len(b.Items) || marked.Trainee != "A Trainee" {
		t.Errorf("marked %+v, debriefed %+v", a, b)
	}

	write := func(name string, records []string) string {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, []byte(strings.Join(records, "")), 0o644); err != nil {
			t.Fatal(err)
		}
		return file
	}
	change := func(old, new string) []string {
		list := strings.Split(strings.Replace(strings.Join(records, ""), old, new, 1), "\n")
		for i := range list[:len(list)-1] {
			list[i] += "\n"
		}
		return forged(list[:len(list)-1])
	}
	other := change(fmt.Sprintf(`"engine":%d`, provenance.Engine), `"engine":1`)
	for i, r := range other {
		if at := strings.Index(r, `"digest":"`); at >= 0 {
			other[i] = r[:at+10] + strings.Repeat("0", 64) + r[at+74:]
		}
	}
	for _, row := range []struct {
		name    string
		records []string
		says    string
	}{
		{"another engine's", forged(other), "no verdict: another engine: it was flown by engine 1"},
		{"cut short", records[:len(records)-1], "no verdict: the log does not say what the session gave"},
		{"a careless edit", []string{strings.Replace(records[0], `"seed":3`, `"seed":4`, 1), strings.Join(records[1:], "")}, "the chain does not hold"},
	} {
		out.Reset()
		complaints.Reset()
		status := Main([]string{"mark", write("log.jsonl", row.records)}, &out, &complaints)
		if status != exitFailure || !strings.Contains(complaints.String(), row.says) || out.Len() > 0 {
			t.Errorf("%s: status %d, %q and %q, want it refused with %q", row.name, status, out.String(), complaints.String(), row.says)
		}
	}
}
