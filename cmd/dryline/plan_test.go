package main

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/plan/sheet"
	"dryline/sonar"
	"dryline/vessel/nav"
)

// The invented inlet of the planning tests; see its README.
const inlet = "testdata/plan/"

func planned(t *testing.T, folder string, args ...string) (f sheet.Figures, told string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	args = append([]string{"plan", inlet + "area.geojson", "--depths", inlet + "inlet.tif", "--values", "up", "--range", "50", "--json", "-o", folder}, args...)
	if status := Main(args, &stdout, &stderr); status != exitOK {
		t.Fatalf("%v: status %d\n%s", args, status, &stderr)
	}
	if err := json.Unmarshal(stdout.Bytes(), &f); err != nil {
		t.Fatal(err)
	}
	return f, stderr.String()
}

// onSphere is the distance between two places on a sphere of the earth's mean radius, metres: the
// expectation of lengths, apart from any projection.
func onSphere(a, b [2]float64) float64 {
	const r, d = 6371008.8, math.Pi / 180
	sin := func(x float64) float64 { return math.Pow(math.Sin(x*d/2), 2) }
	return 2 * r * math.Asin(math.Sqrt(sin(b[1]-a[1])+math.Cos(a[1]*d)*math.Cos(b[1]*d)*sin(b[0]-a[0])))
}

func TestPlanOfAnInlet(t *testing.T) {
	if testing.Short() {
		t.Skip("draws up plans one after another")
	}
	dir := t.TempDir()
	before := math.Inf(1)
	for _, spacing := range []string{"60", "80", "120"} {
		folder := filepath.Join(dir, spacing)
		f, told := planned(t, folder, "--spacing", spacing, "--keep-out", inlet+"keep-out.geojson", "--tide", "0.8", "--height", "7")
		if !f.Good || told != "" {
			t.Errorf("%s m: the plan does not hold: %s", spacing, told)
		}
		if fmt.Sprint(f.Spacing) != spacing || f.LineCount < 6 || f.Direction < 0 || f.Direction >= 180 {
			t.Errorf("%s m: %d lines %g m apart on %g deg", spacing, f.LineCount, f.Spacing, f.Direction)
		}
		if want := (f.LineLength + f.TurnLength) / (4 * 1852.0 / 3600); math.Abs(f.Time-want) > 0.5 {
			t.Errorf("%s m: takes %g s, its lengths at 4 kn %g", spacing, f.Time, want)
		}
		if f.Time >= before {
			t.Errorf("at %s m it takes %g s, closer %g", spacing, f.Time, before)
		}
		before = f.Time
		// The file of lines, read on its own: as many and as long.
		var lines struct {
			Features []struct {
				Geometry struct{ Coordinates [][2]float64 }
			}
		}
		if err := json.Unmarshal(readAll(t, folder, "lines.geojson"), &lines); err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, l := range lines.Features {
			sum += onSphere(l.Geometry.Coordinates[0], l.Geometry.Coordinates[1])
		}
		if len(lines.Features) != f.LineCount || math.Abs(sum/f.LineLength-1) > 0.004 { // the sphere is within 0.3 % of the ellipsoid, the grid 0.04
			t.Errorf("%s m: the file has %d lines of %.0f m, the figures %d of %.0f", spacing, len(lines.Features), sum, f.LineCount, f.LineLength)
		}
		var g struct {
			XMLName xml.Name `xml:"http://www.topografix.com/GPX/1/1 gpx"`
			Routes  []struct {
				Points []struct {
					Lat float64 `xml:"lat,attr"`
				} `xml:"rtept"`
			} `xml:"rte"`
		}
		if err := xml.Unmarshal(readAll(t, folder, "lines.gpx"), &g); err != nil || len(g.Routes) != f.LineCount || g.Routes[0].Points[0].Lat < 47 {
			t.Errorf("%s m: %d routes, %v", spacing, len(g.Routes), err)
		}
		page := string(readAll(t, folder, "plan.html"))
		if !strings.Contains(page, "never evidence of clearance") {
			t.Errorf("%s m: the page has no caution", spacing)
		}
		// What is seen is not told as more than it is, nor what is missed as less.
		for words, share := range map[string]float64{"Seen once or more": f.Coverage.Once, "Seen twice or more": f.Coverage.Twice, "Only under a fish": -f.Coverage.Gap, "From no line": -f.Coverage.Lost} {
			said := regexp.MustCompile(words + `</th><td class="n">([0-9.]+) %`).FindStringSubmatch(page)
			if said == nil {
				t.Fatalf("%s m: the page does not say %q", spacing, words)
			}
			v, _ := strconv.ParseFloat(said[1], 64)
			if v = math.Copysign(v, share); v > 100*share+1e-6 || v < 100*share-0.1-1e-6 {
				t.Errorf("%s m: %s: %s %% on the page, %g in the figures", spacing, words, said[1], share)
			}
		}
		for _, name := range []string{"plan.html", "plan.json", "lines.geojson", "lines.gpx", "contents.json"} {
			if text := strings.ToLower(string(readAll(t, folder, name))); !strings.Contains(text, "engine") || !strings.Contains(text, "cc0-1.0") {
				t.Errorf("%s m: %s names no engine or no licence", spacing, name)
			}
		}
		if status := Main([]string{"check", filepath.Join(folder, "exercise.yaml")}, new(bytes.Buffer), os.Stderr); status != exitOK {
			t.Errorf("%s m: the exercise is faulty", spacing)
		}
	}
}

// A sliver that is not seen keeps a plan from being called whole.
func TestSharesOfAPlan(t *testing.T) {
	for share, want := range map[float64]string{1: "100.0 %", 0.99996: "99.9 %", 0.9999: "99.9 %", 0.29: "29.0 %", 0.79166: "79.1 %", 0: "0.0 %"} {
		if got := sheet.Percent(share); got != want {
			t.Errorf("%g seen: %s, want %s", share, got, want)
		}
	}
	for share, want := range map[float64]string{0: "0.0 %", 0.0001: "0.1 %", 0.208: "20.8 %", 1: "100.0 %"} {
		if got := sheet.Lack(share); got != want {
			t.Errorf("%g missed: %s, want %s", share, got, want)
		}
	}
}

func readAll(t *testing.T, folder, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(folder, name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// A plan of steep ground says what would go wrong, and where.
func TestAPlanSaysWhatDoesNotHold(t *testing.T) {
	f, told := planned(t, filepath.Join(t.TempDir(), "steep"), "--spacing", "80", "--no-edge-lines", "--direction", "30.5")
	if f.Good || !strings.Contains(told, "does not hold: The slopes ask the winch") {
		t.Errorf("over the rock it says: %s", told)
	}
	if f.Direction != 30.5 || f.EdgeCount != 0 {
		t.Errorf("on %g deg with %d edge lines, want 30.5 with none", f.Direction, f.EdgeCount)
	}
}

// The same plan gives the same bytes.
func TestPlansRepeat(t *testing.T) {
	dir := t.TempDir()
	a, b := filepath.Join(dir, "a"), filepath.Join(dir, "b")
	planned(t, a, "--nadir", "interleave", "--cross-lines", "400")
	planned(t, b, "--nadir", "interleave", "--cross-lines", "400")
	if !bytes.Equal(readAll(t, a, "contents.json"), readAll(t, b, "contents.json")) {
		t.Error("the folders differ")
	}
}

// What a plan wrote is flown, and its log flies again from the folder it was handed over in.
// smallArea is a part of the inlet that is surveyed in minutes.
const smallArea = `{"type": "Polygon", "coordinates": [[[-33.3960, 47.2035], [-33.3945, 47.2035], [-33.3945, 47.2050], [-33.3960, 47.2050], [-33.3960, 47.2035]]]}`

func TestPlannedExerciseFlies(t *testing.T) {
	if testing.Short() {
		t.Skip("flies a survey")
	}
	dir := t.TempDir()
	area := filepath.Join(dir, "small.geojson")
	err := os.WriteFile(area, []byte(smallArea), 0o644)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	run := func(args ...string) {
		t.Helper()
		out.Reset()
		if status := Main(args, &out, os.Stderr); status != exitOK {
			t.Fatalf("%v: status %d", args, status)
		}
	}
	folder, flown, again := filepath.Join(dir, "plan"), filepath.Join(dir, "flown"), filepath.Join(dir, "again")
	run("plan", area, "--depths", inlet+"inlet.tif", "--values", "up", "--range", "50", "--spacing", "90", "--no-edge-lines", "--json", "-o", folder)
	var f sheet.Figures
	if err := json.Unmarshal(out.Bytes(), &f); err != nil {
		t.Fatal(err)
	}
	run("run", filepath.Join(folder, "exercise.yaml"), "-o", flown)
	var d struct {
		Simulated float64 `json:"simulated_s"`
		Mishaps   []any   `json:"mishaps"`
		NotRun    []any   `json:"lines_not_run"`
	}
	if err := json.Unmarshal(readAll(t, flown, "debrief.json"), &d); err != nil {
		t.Fatal(err)
	}
	// Before the first line there is its run-in, which the plan does not count.
	if d.Simulated < f.Time || d.Simulated > 1.25*f.Time+120 || len(d.Mishaps) > 0 || len(d.NotRun) > 0 {
		t.Errorf("flown in %.0f s, planned %.0f; %d mishaps, %d lines not run", d.Simulated, f.Time, len(d.Mishaps), len(d.NotRun))
	}
	run("replay", filepath.Join(flown, "session.jsonl"), "-o", again)
	if !bytes.Equal(readAll(t, flown, "contents.json"), readAll(t, again, "contents.json")) {
		t.Error("flown again it gives other files")
	}
}

func TestFaultsOfPlanning(t *testing.T) {
	dir := t.TempDir()
	line := filepath.Join(dir, "route.geojson")
	if err := os.WriteFile(line, []byte(`{"type": "LineString", "coordinates": [[-33.3960, 47.2035], [-33.3945, 47.2055]]}`), 0o644); err != nil {
		t.Fatal(err)
	}
	list := filepath.Join(dir, "list.geojson")
	if err := os.WriteFile(list, []byte("[]"), 0o644); err != nil {
		t.Fatal(err)
	}
	depths := []string{"--depths", inlet + "inlet.tif", "--range", "50", "-o", filepath.Join(dir, "out")}
	for _, c := range []struct {
		want string
		args []string
	}{
		{"plan needs --depths, --range, --output", []string{inlet + "area.geojson"}},
		{"up or down", append([]string{inlet + "area.geojson"}, depths...)},
		{"want auto or a number from 0 to 180", append([]string{inlet + "area.geojson", "--values", "up", "--direction", "north"}, depths...)},
		{"takes one of --overlap and --spacing", append([]string{inlet + "area.geojson", "--overlap", "20", "--spacing", "80"}, depths...)},
		{"half width of its corridor", append([]string{line, "--values", "up"}, depths...)},
		{"no GeoJSON", append([]string{inlet + "inlet.tif", "--values", "up"}, depths...)},
		{"lies where the world does", append([]string{inlet + "area.geojson", "--values", "up", "--epsg", "32626"}, depths...)},
		{"cross-lines would lie 0.001 m apart", append([]string{inlet + "area.geojson", "--values", "up", "--cross-lines", "0.001"}, depths...)},
		{`--title: "a\u202eb" has characters`, append([]string{inlet + "area.geojson", "--values", "up", "--title", "a\u202eb"}, depths...)},
		{"the file holds a JSON array", append([]string{list, "--values", "up"}, depths...)},
		{"does not go with a range scale", append([]string{inlet + "area.geojson", "--values", "up", "--height", "60"}, depths...)},
	} {
		var stderr bytes.Buffer
		if status := Main(append([]string{"plan"}, c.args...), new(bytes.Buffer), &stderr); status != exitUsage || !strings.Contains(stderr.String(), c.want) || strings.Count(stderr.String(), "\n") != 1 {
			t.Errorf("%v: status %d\n%s want 2 and one line with %q", c.args, status, &stderr, c.want)
		}
	}
	if _, err := os.Stat(filepath.Join(dir, "out")); err == nil {
		t.Error("a folder was written all the same")
	}
}

// A corridor along a bent route.
func TestCorridor(t *testing.T) {
	dir := t.TempDir()
	route := filepath.Join(dir, "route.geojson")
	if err := os.WriteFile(route, []byte(`{"type": "LineString", "coordinates": [[-33.3950, 47.2015], [-33.3935, 47.2045], [-33.3942, 47.2080]]}`), 0o644); err != nil {
		t.Fatal(err)
	}
	var out, stderr bytes.Buffer
	status := Main([]string{"plan", route, "--depths", inlet + "inlet.tif", "--values", "up", "--range", "50", "--height", "7", "--nadir", "neighbour", "--corridor", "60", "--json", "-o", filepath.Join(dir, "out")}, &out, &stderr)
	var f sheet.Figures
	if err := json.Unmarshal(out.Bytes(), &f); err != nil || status != exitOK {
		t.Fatalf("status %d, %v\n%s", status, err, &stderr)
	}
	// 120 m in lines of 41.67 m: three rows of two legs each, and one outside of each limit.
	if f.LineCount != 10 || f.EdgeCount != 4 || math.Abs(f.Spacing-50*5.0/6) > 0.01 || f.Coverage.Once < 0.99 {
		t.Errorf("%d lines, %d of them at edges, %g m apart, %.3f seen", f.LineCount, f.EdgeCount, f.Spacing, f.Coverage.Once)
	}
}

// What a plan says of the fish in turns is what its altimeter shows when the exercise is flown, pings
// left out; and with nothing hauled in before them she strikes, as the plan says too.
func TestFishInPlannedTurns(t *testing.T) {
	if testing.Short() {
		t.Skip("flies a survey's passage twice")
	}
	folder := t.TempDir() + "/plan"
	f, _ := planned(t, folder, "--spacing", "80", "--keep-out", inlet+"keep-out.geojson")
	says := ""
	low := 0.0
	for _, c := range f.Checks {
		if c.ID == "sink" {
			says, low = c.Says, c.Worst
		}
	}
	if !(f.TurnHaul > 0) || !strings.Contains(says, "would strike") || f.Good != (low >= 1.5) {
		t.Fatalf("%g %% hauled in; good %t: %q", f.TurnHaul, f.Good, says)
	}
	lowest := func(haul string) (low float64, mishaps int) {
		t.Helper()
		source := strings.Replace(string(readAll(t, folder, "exercise.yaml")), fmt.Sprintf("turn_haul_percent: %g", f.TurnHaul), "turn_haul_percent: "+haul, 1)
		file := filepath.Join(folder, "flown"+haul+".yaml")
		if err := os.WriteFile(file, []byte(source), 0o644); err != nil {
			t.Fatal(err)
		}
		ex, err := scenarios.Load(file)
		if err != nil {
			t.Fatal(err)
		}
		s, err := sim.New(ex, ex.Seed)
		if err != nil {
			t.Fatal(err)
		}
		s.Sparse(func(uint64, *sonar.Pose) bool { return false })
		s.AttachMate()
		low = math.Inf(1)
		for !s.Done() {
			s.Advance(5)
			if r := s.Passage.Reading(); r.Valid.Has(nav.FishAltitude) {
				low = min(low, r.FishAltitude)
			}
		}
		return low, len(s.Passage.Mishaps())
	}
	// A metre for what the plan leaves out: her way made good in turns, waves, the rounding of the winch man.
	if flown, mishaps := lowest(fmt.Sprint(f.TurnHaul)); flown < low-1 || mishaps > 0 {
		t.Errorf("so hauled the fish came within %.1f m of the floor, %d mishaps; the plan has %.1f m", flown, mishaps, low)
	}
	if flown, mishaps := lowest("0"); flown > 1 || mishaps == 0 {
		t.Errorf("with nothing hauled in it came within %.1f m, %d mishaps; the plan has it strike", flown, mishaps)
	}
}

// Of plans that nothing beats an exercise is written that loads, and has the lines that its row says.
func TestUnbeatenPlansAreWritten(t *testing.T) {
	if testing.Short() {
		t.Skip("looks at a hundred plans")
	}
	folder := t.TempDir() + "/plan"
	area := filepath.Join(t.TempDir(), "small.geojson")
	if err := os.WriteFile(area, []byte(smallArea), 0o644); err != nil {
		t.Fatal(err)
	}
	args := []string{"plan", area, "--depths", inlet + "inlet.tif", "--values", "up", "--range", "50", "--spacing", "90", "--no-edge-lines", "--improve", "-o", folder}
	if status := Main(args, io.Discard, os.Stderr); status != exitOK {
		t.Fatalf("status %d", status)
	}
	var told struct {
		Trade []struct {
			File  string  `json:"exercise"`
			Range float64 `json:"range_m"`
			Speed float64 `json:"speed_m_s"`
			Lines int     `json:"line_count"`
			Best  bool    `json:"unbeaten"`
			Asked bool    `json:"as_asked"`
		} `json:"alternatives"`
	}
	if err := json.Unmarshal(readAll(t, folder, "plan.json"), &told); err != nil {
		t.Fatal(err)
	}
	written := 0
	for _, p := range told.Trade {
		if p.File == "" {
			if p.Best && !p.Asked {
				t.Errorf("%g m at %.2f m/s is unbeaten and not written", p.Range, p.Speed)
			}
			continue
		}
		written++
		ex, err := scenarios.Load(filepath.Join(folder, p.File))
		if err != nil {
			t.Fatal(err)
		}
		if !p.Best || ex.Sonar.RangeScale != p.Range || math.Abs(ex.Plan.Speed-p.Speed) > 0.01 || len(ex.Lines) != p.Lines {
			t.Errorf("%s: %g m scale, %.2f m/s, %d lines; its row has %+v", p.File, ex.Sonar.RangeScale, ex.Plan.Speed, len(ex.Lines), p)
		}
	}
	if written < 3 {
		t.Errorf("%d plans written", written)
	}
}
