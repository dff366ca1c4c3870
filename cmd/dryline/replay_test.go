package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// shortPond is an invented exercise of a line that is run in a minute or two.
const shortPond = `title: A pond
briefing: One short line over mud.
seed: 3
place: {name: Fenwarra Inlet, latitude_deg: 47.2, longitude_deg: -33.4}
seabed: {east_m: 300, north_m: 500, depth_m: 14, sediment: {base: mud}, objects: [{name: ball, kind: sphere, at: [126, 250]}]}
sonar:
  range_scale_m: 50
  samples: 200
  rays: 1
  channels: [{name: "450", frequency_khz: 450}]
lines: [{name: L1, from: [100, 220], to: [100, 290]}]
plan: {cable_out_m: 15, run_in_m: 40, run_out_m: 5}
`

// dryline runs the command and returns its status and what it complained of.
func dryline(args ...string) (status int, complaint string) {
	var stdout, stderr bytes.Buffer
	status = Main(args, &stdout, &stderr)
	return status, stderr.String()
}

// flownPond flies the short pond in a folder and returns its log, a record a line.
func flownPond(t *testing.T, dir string) []string {
	t.Helper()
	file := filepath.Join(dir, "pond.yaml")
	if err := os.WriteFile(file, []byte(shortPond), 0o644); err != nil {
		t.Fatal(err)
	}
	if status, complaint := dryline("run", file, "-o", filepath.Join(dir, "first"), "--trainee", "A Trainee"); status != exitOK {
		t.Fatal(complaint)
	}
	text, err := os.ReadFile(filepath.Join(dir, "first", "session.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	records := strings.SplitAfter(string(text), "\n")
	return records[:len(records)-1]
}

var chainPattern = regexp.MustCompile(`,"chain":"[0-9a-f]{64}"}`)

// forged ties the records with a chain of their own, as somebody would who knows
// how.
func forged(records []string) []string {
	var before []byte
	out := make([]string, len(records))
	for i, r := range records {
		body := chainPattern.ReplaceAllString(strings.TrimSuffix(r, "\n"), "}")
		sum := sha256.Sum256(append(slices.Clone(before), body...))
		before = sum[:]
		out[i] = strings.TrimSuffix(body, "}") + `,"chain":"` + hex.EncodeToString(before) + "\"}\n"
	}
	return out
}

// A log edited by hand is refused in one line that says where, and nothing is
// handed over.
func TestReplayRefusesAChangedLog(t *testing.T) {
	dir := t.TempDir()
	whole := flownPond(t, dir)
	last := len(whole)
	for _, test := range []struct {
		name string
		edit func(r []string) []string
		says string
	}{
		{"the seed", func(r []string) []string { r[0] = strings.Replace(r[0], `"seed":3`, `"seed":4`, 1); return r }, "line 1: the chain does not hold"},
		{"the exercise", func(r []string) []string { r[0] = strings.Replace(r[0], "126, 250", "127, 250", 1); return r }, "line 1: the chain"},
		{"a tick", func(r []string) []string {
			r[3] = regexp.MustCompile(`"tick":\d+`).ReplaceAllString(r[3], `"tick":333`)
			return r
		}, "line 4: the chain"},
		{"an order dropped", func(r []string) []string { return slices.Delete(r, 3, 4) }, "line 4: the chain"},
		{"an order doubled", func(r []string) []string { return slices.Insert(r, 3, r[3]) }, "line 5: the chain"},
		{"the digest", func(r []string) []string {
			r[last-1] = strings.Replace(r[last-1], `"digest":"`, `"digest":"0`, 1)
			return r
		}, fmt.Sprintf("line %d: the chain", last)},
		{"forged, with another seed", func(r []string) []string {
			r[0] = strings.Replace(r[0], `"seed":3`, `"seed":4`, 1)
			return forged(r)
		}, "does not give what the log says it gave"},
		{"another exercise's name", func(r []string) []string {
			r[0] = strings.Replace(r[0], `"exercise":"pond"`, `"exercise":"../../evil"`, 1)
			return forged(r)
		}, "evil"},
		{"a platform that turns the line round", func(r []string) []string {
			r[0] = regexp.MustCompile(`"platform":"[^"]*"`).ReplaceAllString(r[0], `"platform":"plan9/\u202earm"`)
			return forged(r)
		}, `line 1: platform: "plan9/\u202earm" is none`},
		{"no log", func(r []string) []string { return []string{"hello\n"} }, "not a session log"},
	} {
		file := filepath.Join(dir, "edited.jsonl")
		text := strings.Join(test.edit(slices.Clone(whole)), "")
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		status, complaint := dryline("replay", file, "-o", filepath.Join(dir, "again"))
		if status != exitFailure || strings.Count(complaint, "\n") != 1 || !strings.Contains(complaint, test.says) {
			t.Errorf("%s: status %d, %q; want 1 and one line with %q", test.name, status, complaint, test.says)
		}
	}
	if got, _ := filepath.Glob(filepath.Join(dir, "*")); len(got) != 3 { // pond.yaml, first, edited.jsonl
		t.Errorf("left behind: %v", got)
	}
	if got, _ := filepath.Glob(filepath.Join(dir, ".*")); len(got) != 0 {
		t.Errorf("left behind: %v", got)
	}
}

// What a log does not promise is said: that it was cut off, that it is of a
// format without a chain, that another engine flew it.
func TestReplaySaysWhatALogDoesNotPromise(t *testing.T) {
	dir := t.TempDir()
	whole := flownPond(t, dir)
	replay := func(name string, records []string) (complaint, page string) {
		t.Helper()
		file, folder := filepath.Join(dir, name+".jsonl"), filepath.Join(dir, name)
		if err := os.WriteFile(file, []byte(strings.Join(records, "")), 0o644); err != nil {
			t.Fatal(err)
		}
		status, complaint := dryline("replay", file, "-o", folder)
		if status != exitOK {
			t.Fatalf("%s: status %d, %s", name, status, complaint)
		}
		text, err := os.ReadFile(filepath.Join(folder, "debrief.html"))
		if err != nil {
			t.Fatal(err)
		}
		return complaint, string(text)
	}

	complaint, page := replay("as-it-was", whole)
	if complaint != "" || strings.Contains(page, "Partial:") || strings.Contains(page, "Not the survey of the log") {
		t.Errorf("flown again as it was: %q", complaint)
	}
	first, again := digestsOf(t, filepath.Join(dir, "first")), digestsOf(t, filepath.Join(dir, "as-it-was"))
	for name, digest := range first {
		if again[name] != digest {
			t.Errorf("%s differs when flown again", name)
		}
	}

	complaint, page = replay("cut", whole[:len(whole)-1])
	if !strings.Contains(complaint, "cut short after") || strings.Count(complaint, "\n") != 1 || !strings.Contains(page, "Partial:") {
		t.Errorf("a log without an end: %q", complaint)
	}

	other := slices.Clone(whole)
	other[0] = strings.Replace(other[0], `"engine":`, `"engine":9`, 1)
	complaint, page = replay("same-bytes", forged(other))
	if !strings.Contains(complaint, "flown by engine 9") || strings.Count(complaint, "\n") != 1 || strings.Contains(complaint, "not the same survey") || strings.Contains(page, "Not the survey of the log") {
		t.Errorf("another engine of the same bytes: %q", complaint)
	}
	other[len(other)-1] = regexp.MustCompile(`"digest":"[0-9a-f]{8}`).ReplaceAllString(other[len(other)-1], `"digest":"00000000`)
	complaint, page = replay("other", forged(other))
	if !strings.Contains(complaint, "flown by engine 9") || !strings.Contains(complaint, "not the same survey") || !strings.Contains(page, "Not the survey of the log") {
		t.Errorf("another engine: %q", complaint)
	}

	old := slices.Clone(whole)
	old[0] = regexp.MustCompile(`"dryline_session":2,"engine":\d+,"platform":"[^"]*","trainee":"[^"]*","started_utc":"[^"]*"`).ReplaceAllString(old[0], `"dryline_session":1`)
	old[len(old)-1] = regexp.MustCompile(`,"digest":"[0-9a-f]+"`).ReplaceAllString(old[len(old)-1], "")
	for i := range old {
		old[i] = chainPattern.ReplaceAllString(old[i], "}")
	}
	complaint, _ = replay("old", old)
	if !strings.Contains(complaint, "no chain") || strings.Count(complaint, "\n") != 1 {
		t.Errorf("a log of format 1: %q", complaint)
	}
	// And its own log does not become a protected one by being flown again.
	text, err := os.ReadFile(filepath.Join(dir, "old", "session.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	if complaint, _ = replay("old-again", []string{string(text)}); !strings.Contains(complaint, "no chain") {
		t.Errorf("a log flown again from one of format 1: %q", complaint)
	}
}

// The same orders from a file of one's own fly the same survey as the mate's.
func TestOrdersOfOnesOwn(t *testing.T) {
	t.Setenv("SOURCE_DATE_EPOCH", "1900000000")
	dir := t.TempDir()
	whole := flownPond(t, dir)
	var orders []string
	for _, r := range whole[1 : len(whole)-1] {
		orders = append(orders, chainPattern.ReplaceAllString(r, "}"))
	}
	file := filepath.Join(dir, "mine.jsonl")
	write := func(lines ...string) {
		if err := os.WriteFile(file, []byte(strings.Join(lines, "")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(orders...)
	folder, exercise := filepath.Join(dir, "mine"), filepath.Join(dir, "pond.yaml")
	if status, complaint := dryline("run", exercise, "--orders", file, "-o", folder, "--trainee", "A Trainee"); status != exitOK || complaint != "" {
		t.Fatalf("status %d, %s", status, complaint)
	}
	was, is := digestsOf(t, filepath.Join(dir, "first")), digestsOf(t, folder)
	for name, digest := range was {
		if is[name] != digest {
			t.Errorf("%s differs between the mate's orders and the same from a file", name)
		}
	}

	write(orders[0], `{"tick":7,"do":"fly"}`+"\n", "{\n", `{"tick":8,"do":"speed","value":-1}`+"\n")
	status, complaint := dryline("run", exercise, "--orders", file, "-o", filepath.Join(dir, "none"))
	lines := strings.Split(strings.TrimSuffix(complaint, "\n"), "\n")
	if status != exitUsage || len(lines) != 3 {
		t.Fatalf("bad orders: status %d, %q; want 2 and three faults", status, complaint)
	}
	for i, want := range []string{file + ":2: ", file + ":3: ", file + ":4: speed: -1 is out of range (want 0 to 15)"} {
		if !strings.HasPrefix(lines[i], want) {
			t.Errorf("fault %q, want %q", lines[i], want)
		}
	}
}

// A line run twice has both its waterfalls, under names of their own.
func TestALineRunTwice(t *testing.T) {
	dir := t.TempDir()
	file, exercise := filepath.Join(dir, "twice.jsonl"), filepath.Join(dir, "pond.yaml")
	orders := `{"tick":0,"do":"speed","value":2}
{"tick":300,"do":"log_on","line":"L1"}
{"tick":350,"do":"log_off"}
{"tick":360,"do":"log_on","line":"L1"}
{"tick":420,"do":"finish"}
`
	for name, text := range map[string]string{file: orders, exercise: shortPond} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	folder := filepath.Join(dir, "out")
	if status, complaint := dryline("run", exercise, "--orders", file, "-o", folder); status != exitOK {
		t.Fatal(complaint)
	}
	digests := digestsOf(t, folder)
	one, two := digests["waterfall-L1-450.png"], digests["waterfall-L1-450-run2.png"]
	if one == "" || two == "" || one == two {
		t.Errorf("waterfalls of two runs: %.8q and %.8q", one, two)
	}
	list, err := os.ReadFile(filepath.Join(folder, "contents.json"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{`"waterfall-L1-450.png"`, `"waterfall-L1-450-run2.png"`} {
		if n := strings.Count(string(list), name); n != 1 {
			t.Errorf("%s is listed %d times", name, n)
		}
	}
}

// A log from a stranger carries its exercise: whatever that calls its lines, its
// channels and itself, nothing is written outside the folder.
func TestHostileLogs(t *testing.T) {
	for _, names := range []struct{ line, channel, exercise string }{
		{"A/1", "450", "pond"}, {"a/../../evil", "450", "pond"}, {"L1", "../../evil", "pond"}, {"L1", "450", "../../evil"},
		{"..", "450", "pond"}, {"L1", "4\\u0000", "pond"}, {"L1", "450", "/tmp/evil"}, {"L1", "450", "\\u202egnp.live"},
	} {
		dir := t.TempDir()
		source := strings.NewReplacer("name: L1", `name: \"`+names.line+`\"`, `name: "450"`, `name: \"`+names.channel+`\"`, "\n", `\n`).Replace(shortPond)
		sum := sha256.Sum256([]byte(unquoted(t, source)))
		log := fmt.Sprintf(`{"dryline_session":1,"exercise":"%s","sha256":"%x","seed":1,"source":"%s"}`, names.exercise, sum, source) + "\n" +
			`{"tick":0,"do":"log_on","line":"` + names.line + `"}` + "\n" + `{"end":30,"reason":"interrupted"}` + "\n"
		file := filepath.Join(dir, "in", "deep", "session.jsonl")
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(log), 0o644); err != nil {
			t.Fatal(err)
		}
		status, complaint := dryline("replay", file, "-o", filepath.Join(dir, "in", "deep", "out"))
		if status != exitFailure || complaint == "" || strings.ContainsAny(complaint, "\x00\u202e") {
			t.Errorf("%+v: status %d, %q; want it refused", names, status, complaint)
		}
		var found []string
		filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
			if err == nil && !d.IsDir() {
				found = append(found, path)
			}
			return err
		})
		if len(found) != 1 {
			t.Errorf("%+v: there is %v, want the log alone", names, found)
		}
	}
}

// unquoted is the text that a JSON string stands for.
func unquoted(t *testing.T, s string) (text string) {
	t.Helper()
	if err := json.Unmarshal([]byte(`"`+s+`"`), &text); err != nil {
		t.Fatal(err)
	}
	return text
}
