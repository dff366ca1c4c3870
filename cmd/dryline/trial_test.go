//go:build unix

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"dryline/sim/trial"
)

// smallPond is an invented exercise that is flown in no time.
const smallPond = `title: A small pond
briefing: One line over sand.
seed: 3
place: {name: Fenwarra Inlet, latitude_deg: 47.2, longitude_deg: -33.4}
seabed: {east_m: 300, north_m: 500, depth_m: 14, sediment: {base: medium_sand}}
sonar:
  range_scale_m: 50
  samples: 400
  rays: 1
  channels: [{name: "450", frequency_khz: 450}]
lines: [{name: L1, from: [150, 160], to: [150, 340]}]
plan: {cable_out_m: 15, run_in_m: 60, run_out_m: 10}
`

const pondTargets = `targets:
  - { kind: block, size_m: 1, count: 2 }
bare_ground_km2: 0.01
`

// trialIn begins a folder with the plans a and b and targets.yaml.
func trialIn(t *testing.T) string {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"a.yaml": smallPond, "b.yaml": strings.ReplaceAll(smallPond, "[150, ", "[170, "), "spec.yaml": pondTargets,
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// tried flies a trial in that folder.
func tried(dir, out string, more ...string) (status int, told, stderr string) {
	var a, b bytes.Buffer
	args := []string{"trial", filepath.Join(dir, "a.yaml"), filepath.Join(dir, "b.yaml"), "--targets", filepath.Join(dir, "spec.yaml"), "-o", filepath.Join(dir, out)}
	status = Main(append(args, more...), &a, &b)
	lines := slices.DeleteFunc(strings.SplitAfter(b.String(), "\n"), func(s string) bool { return strings.HasPrefix(s, "Searching ") })
	return status, a.String(), strings.Join(lines, "")
}

var answers = []string{"trial.json", "trial.csv", "trial.html"}

func sameAnswers(t *testing.T, a, b string) {
	t.Helper()
	for _, name := range answers {
		if !bytes.Equal(readAll(t, a, name), readAll(t, b, name)) {
			t.Errorf("%s of %s is another than that of %s", name, filepath.Base(b), filepath.Base(a))
		}
	}
}

// Ctrl-C keeps what is flown, hands over partial answers over the runs that both plans have,
// and the trial goes on to what it would have come to; so does one whose last line was cut.
func TestTrialStoppedGoesOnToTheSame(t *testing.T) {
	if testing.Short() {
		t.Skip("flies a hundred runs")
	}
	dir := trialIn(t)
	const runs = "22"
	if status, _, stderr := tried(dir, "whole", "--runs", runs); status != exitOK || stderr != "" {
		t.Fatalf("status %d: %s", status, stderr)
	}
	c := start(t, dir, "trial", "a.yaml", "b.yaml", "--targets", "spec.yaml", "-o", "part", "--runs", runs, "--workers", "1")
	log := filepath.Join(dir, "part", "runs.jsonl")
	for {
		if text, err := os.ReadFile(log); err == nil && bytes.Count(text, []byte("\n")) > 6 { // the head and three runs of both
			break
		}
		if c.Process.Signal(syscall.Signal(0)) != nil {
			t.Fatal("it ended: " + c.stderr.String())
		}
		time.Sleep(time.Millisecond)
	}
	if err := c.Process.Signal(syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	for c.lines.Scan() {
	}
	if c.Wait(); c.ProcessState.ExitCode() != exitFailure || !strings.Contains(c.stderr.String(), "--resume continues") {
		t.Fatalf("status %d: %s", c.ProcessState.ExitCode(), c.stderr.String())
	}
	var part trial.Result
	if err := json.Unmarshal(readAll(t, filepath.Join(dir, "part"), "trial.json"), &part); err != nil {
		t.Fatal(err)
	}
	if !part.Partial || part.Runs < 3 || part.Runs >= 22 || part.Plans[0].Runs != part.Runs || part.Plans[1].Runs != part.Runs {
		t.Errorf("partial %v, %d runs, of the plans %d and %d", part.Partial, part.Runs, part.Plans[0].Runs, part.Plans[1].Runs)
	}
	text, err := os.ReadFile(log)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(log, text[:len(text)-20], 0o644); err != nil {
		t.Fatal(err)
	}
	if status, _, stderr := tried(dir, "part", "--runs", runs, "--resume"); status != exitOK || stderr != "" {
		t.Fatalf("status %d: %s", status, stderr)
	}
	sameAnswers(t, filepath.Join(dir, "whole"), filepath.Join(dir, "part"))

	// Asked for no more than a width, it stops at a whole batch.
	if status, _, stderr := tried(dir, "part", "--runs", runs, "--until", "0.3", "--resume"); status != exitOK || stderr != "" {
		t.Fatalf("status %d: %s", status, stderr)
	}
	if err := json.Unmarshal(readAll(t, filepath.Join(dir, "part"), "trial.json"), &part); err != nil {
		t.Fatal(err)
	}
	if part.Runs != 20 {
		t.Errorf("asked for half a width of 0.3 it takes %d runs", part.Runs)
	}
	for _, p := range part.Plans {
		if (p.All.High-p.All.Low)/2 > 0.3 {
			t.Errorf("%s: %.2f to %.2f", p.Name, p.All.Low, p.All.High)
		}
	}
}

// What was done to the runs by other hands is one clear line, and nothing is lost.
func TestHostileRuns(t *testing.T) {
	if testing.Short() {
		t.Skip("flies whole trials")
	}
	dir := trialIn(t)
	if status, _, stderr := tried(dir, "out", "--runs", "2"); status != exitOK {
		t.Fatalf("status %d: %s", status, stderr)
	}
	name := filepath.Join(dir, "out", "runs.jsonl")
	good := string(readAll(t, filepath.Join(dir, "out"), "runs.jsonl"))
	lines := strings.SplitAfter(good, "\n")
	edit := func(key, value string) string {
		at := strings.Index(good, key)
		if at < 0 {
			t.Fatalf("no %s in %s", key, good)
		}
		end := at + len(key) + strings.IndexAny(good[at+len(key):], ",}")
		return good[:at] + key + value + good[end:]
	}
	for what, text := range map[string]string{
		"nothing":       "",
		"no trial":      "hello\n" + good,
		"twice":         good + lines[1],
		"other plan":    edit(`"plan":`, "7"),
		"other run":     edit(`"run":`, "5"),
		"negative run":  edit(`"run":`, "-1"),
		"NaN":           edit(`"coverage_once":`, "NaN"),
		"too much":      edit(`"time_s":`, "1e308"),
		"beyond floats": edit(`"time_s":`, "1e999"),
		"share":         edit(`"coverage_once":`, "1.5"),
		"no targets":    strings.Replace(good, `"targets":[`, `"targets":[{"target":0},`, 1),
		"other target":  edit(`"target":`, "-3"),
		"aspect":        edit(`"aspect_deg":`, "-90"),
		"lateral":       edit(`"lateral_m":`, "1e300"),
		"score":         edit(`"score":`, "-1"),
		"plan count":    strings.Replace(good, `"plans":[`, `"plans":[["c","00"],`, 1),
	} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		status, _, stderr := tried(dir, "out", "--runs", "2", "--resume")
		if status == exitOK || strings.Count(stderr, "\n") != 1 || strings.Contains(stderr, "panic") {
			t.Errorf("%s: status %d, want one line\n%s", what, status, stderr)
		}
		if got := string(readAll(t, filepath.Join(dir, "out"), "runs.jsonl")); got != text {
			t.Errorf("%s: the file was written to", what)
		}
	}
	// Bare ground that was spoilt is searched again.
	if err := os.WriteFile(name, []byte(good), 0o644); err != nil {
		t.Fatal(err)
	}
	was, bare := readAll(t, filepath.Join(dir, "out"), "trial.json"), filepath.Join(dir, "out", "bare.json")
	for _, text := range []string{"[null,null]", `[{"threshold":-1},{"threshold":1e300}]`} {
		if err := os.WriteFile(bare, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		if status, _, stderr := tried(dir, "out", "--runs", "2", "--resume"); status != exitOK || !bytes.Equal(was, readAll(t, filepath.Join(dir, "out"), "trial.json")) {
			t.Errorf("%s: status %d\n%s", text, status, stderr)
		}
	}
}

// Folders that are not the trial's are left as they are.
func TestTrialFolders(t *testing.T) {
	if testing.Short() {
		t.Skip("flies whole trials")
	}
	dir := trialIn(t)
	refused := func(out, want string, more ...string) {
		t.Helper()
		status, _, stderr := tried(dir, out, append([]string{"--runs", "2"}, more...)...)
		if status == exitOK || strings.Count(stderr, "\n") != 1 || !strings.Contains(stderr, want) {
			t.Errorf("%s: status %d\n%s want one line with %q", out, status, stderr, want)
		}
	}
	put := func(name, text string) {
		t.Helper()
		name = filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	put("theirs/targets.yaml", "targets: of somebody else\n")
	refused("theirs", "targets.yaml is there already")
	put("answers/trial.json", "{}")
	refused("answers", "trial.json is there already")
	put("plans/plans/b.yaml", "title: mine\n")
	refused("plans", "b.yaml is there already")
	put("file", "")
	refused("file", "not a directory")
	refused("none", "no trial to resume", "--resume")
	refused("until", "--until: NaN", "--until", "NaN")
	for name, want := range map[string]string{"theirs/targets.yaml": "targets: of somebody else\n", "answers/trial.json": "{}", "plans/plans/b.yaml": "title: mine\n"} {
		if got, _ := os.ReadFile(filepath.Join(dir, name)); string(got) != want {
			t.Errorf("%s is now %q", name, got)
		}
	}

	// One folder is flown in once at a time.
	f, _, err := openTrial(filepath.Join(dir, "one"), false, &trial.Trial{Spec: &trial.Spec{}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	refused("one", "a trial is being flown there", "--resume")
	f.Close()

	if os.Geteuid() != 0 {
		if err := os.Mkdir(filepath.Join(dir, "shut"), 0o555); err != nil {
			t.Fatal(err)
		}
		refused("shut", "permission denied")
	}
}

// Odd trials are told in figures or in one line: an area that no line is in, targets larger
// than the lines are apart, a plan whose fish goes aground.
func TestOddTrials(t *testing.T) {
	if testing.Short() {
		t.Skip("flies whole trials")
	}
	dir := trialIn(t)
	with := func(spec string, more ...string) (*trial.Result, string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, "spec.yaml"), []byte(spec+"bare_ground_km2: 0.01\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		out := fmt.Sprint(len(spec), more)
		status, _, stderr := tried(dir, out, append([]string{"--runs", "2"}, more...)...)
		if strings.Contains(stderr, "panic") || strings.Count(stderr, "\n") > 1 {
			t.Fatal(stderr)
		}
		if status != exitOK {
			return nil, stderr
		}
		var r trial.Result
		if err := json.Unmarshal(readAll(t, filepath.Join(dir, out), "trial.json"), &r); err != nil {
			t.Fatal(err)
		}
		return &r, ""
	}
	r, told := with("targets: [{kind: block, size_m: 1, count: 1}]\narea: [[10, 400], [60, 400], [60, 460], [10, 460]]\n")
	if r == nil || r.Plans[0].Coverage.Once != 0 || r.Plans[0].All.P != 0 || r.Plans[0].Detected[0].Cookie != 0 {
		t.Errorf("no line in the area: %s %+v", told, r)
	}
	// Of four cells.
	if r, told = with("targets: [{kind: block, size_m: 1, count: 1}]\narea: [[160, 250], [162, 250], [162, 252], [160, 252]]\n"); r == nil || r.Plans[0].Detected[0].Cookie != 1 {
		t.Errorf("a tiny area: %s %+v", told, r)
	}
	if r, told = with("targets: [{kind: block, size_m: 40, count: 1}]\n"); r == nil && told == "" {
		t.Errorf("a target of 40 m: %q", told)
	}
	if _, told = with("targets: [{kind: block, size_m: 1, count: 40}]\narea: [[140, 240], [160, 240], [160, 260]]\n"); !strings.Contains(told, "no room for 40 targets") {
		t.Errorf("no room: %q", told)
	}
	for _, p := range []string{"a", "b"} {
		deep := strings.Replace(string(readAll(t, dir, p+".yaml")), "cable_out_m: 15", "cable_out_m: 37", 1)
		deep = strings.Replace(deep, "sediment:", "relief: {height_m: 3, wavelength_m: 90}, sediment:", 1)
		if err := os.WriteFile(filepath.Join(dir, p+".yaml"), []byte(deep), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if r, told = with("targets: [{kind: block, size_m: 1, count: 1}]\n", "--seed", "9"); r == nil || r.Plans[0].Ground.P != 1 {
		t.Errorf("aground: %s %+v", told, r)
	}
}

// widePond is an invented exercise: targets lie anywhere between and beside two lines that leave little out.
const widePond = `title: A wide pond
briefing: Two lines over sand.
seed: 3
place: {name: Fenwarra Inlet, latitude_deg: 47.2, longitude_deg: -33.4}
seabed: {east_m: 400, north_m: 640, depth_m: 14, sediment: {base: medium_sand}}
sonar:
  range_scale_m: 50
  samples: 1000
  channels: [{name: "450", frequency_khz: 450}]
lines: [{name: L1, from: [150, 160], to: [150, 480]}, {name: L2, from: [240, 160], to: [240, 480]}]
plan: {cable_out_m: 15, run_in_m: 60, run_out_m: 10, altitude_m: 5}
`

const wideTargets = `targets:
  - { kind: block, size_m: 0.6, count: 12 }
area: [[110, 170], [290, 170], [290, 470], [110, 470]]
bare_ground_km2: 0.1
`

// With five hundred looks and more, what a plan finds lies between random search by as much effort (Koopman,
// Search and Screening) and a cookie cutter of the same sweep width, both from the lateral range curve
// of the same detector, worked out here once more from the figures that are handed over.
func TestDetectionLiesInItsBracket(t *testing.T) {
	if os.Getenv("DRYLINE_LONG") == "" {
		t.Skip("flies forty-four runs; set DRYLINE_LONG=1")
	}
	dir := t.TempDir()
	for name, text := range map[string]string{"plan.yaml": widePond, "spec.yaml": wideTargets} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	out := filepath.Join(dir, "trial")
	if status := Main([]string{"trial", filepath.Join(dir, "plan.yaml"), "--targets", filepath.Join(dir, "spec.yaml"), "--runs", "44", "-o", out}, io.Discard, os.Stderr); status != exitOK {
		t.Fatalf("status %d", status)
	}
	var r trial.Result
	if err := json.Unmarshal(readAll(t, out, "trial.json"), &r); err != nil {
		t.Fatal(err)
	}
	d := &r.Plans[0].Detected[0]
	if d.LookCount < 500 {
		t.Fatalf("%d looks, want 500", d.LookCount)
	}
	// The area is 180 m by 300, east from 110 to 290 m; of the curves of lines at 150 and 240 m all is inside but what lies
	// more than 40 m west of the first.
	width, swept := 0.0, 0.0
	for _, b := range d.Lateral {
		width += 2 * b.P * (b.To - b.From)
		swept += 300 * b.P * (3*(b.To-b.From) + max(min(b.To, 40)-b.From, 0))
	}
	c := swept / (180 * 300)
	if math.Abs(d.Sweep-width) > 0.06 || math.Abs(d.Cookie-min(c, 1)) > 0.02 || math.Abs(d.Random-(1-math.Exp(-c))) > 0.02 {
		t.Errorf("sweep width %g m, brackets %.3f and %.3f; by the curve %.1f m, %.3f and %.3f", d.Sweep, d.Random, d.Cookie, width, 1-math.Exp(-c), min(c, 1))
	}
	if d.P < d.Random || d.P > d.Cookie {
		t.Errorf("%.3f found, random search %.3f, cookie cutter %.3f", d.P, d.Random, d.Cookie)
	}
}

// Files and folders are nobody else's to write to, whatever the terminal leaves open, and a
// trial takes away what one that died in the middle of a file left.
func TestModesOfWhatIsWritten(t *testing.T) {
	old := syscall.Umask(0)
	defer syscall.Umask(old)
	dir := trialIn(t)
	out := filepath.Join(dir, "t")
	left := filepath.Join(out, "plans", ".a.yaml-42")
	if err := os.MkdirAll(filepath.Dir(left), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(left, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if status, _, stderr := tried(dir, "t", "--runs", "2"); status != exitOK {
		t.Fatal(stderr)
	}
	if _, err := os.Stat(left); err == nil {
		t.Error("what a run that died left is there still")
	}
	practice := filepath.Join(dir, "practice.yaml")
	if status, complaint := dryline("practice", "height", "--seed", "1", "--out", practice); status != exitOK {
		t.Fatal(complaint)
	}
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		info, err := e.Info()
		if err == nil && info.Mode().Perm()&0o022 != 0 {
			t.Errorf("%s: mode %o", path, info.Mode().Perm())
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := filepath.Glob(filepath.Join(dir, ".*")); len(got) != 0 {
		t.Errorf("left behind: %v", got)
	}
}
