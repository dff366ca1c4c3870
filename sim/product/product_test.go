package product

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/product/folder"
	"dryline/sim/provenance"
	"dryline/sim/simtest"
	"dryline/sonar/mosaic"
)

var ball = seabed.Object{Name: "ball", Kind: "sphere", At: seabed.Point{X: 126, Y: 280}, Length: 0.9, Width: 0.9, Height: 0.9}

// tiny is the invented exercise with one short line over mud, and a ball on it.
func tiny(t testing.TB) *exercise.Exercise {
	t.Helper()
	ex := simtest.Small(t)
	ex.Name, ex.Title, ex.Source, ex.Hash = "tiny", "A ball on mud", []byte("title: A ball on mud\n"), "00"
	ex.Seabed.East, ex.Seabed.North, ex.Seabed.Base, ex.Seabed.Objects = 300, 500, seabed.Mud, []seabed.Object{ball}
	ex.Lines = []exercise.Line{{Name: "L1", A: seabed.Point{X: 100, Y: 220}, B: seabed.Point{X: 100, Y: 330}}}
	ex.Plan.Order, ex.Plan.CableOut, ex.Plan.RunIn, ex.Plan.RunOut, ex.Plan.TimeLimit = []exercise.Run{{Line: 0}}, 15, 40, 5, 900
	ex.Score = exercise.Score{Coverage: 0.9, OffLine: 5, AltitudeMin: 0.08, AltitudeMax: 0.2, PingsPerMetre: 3, Pass: 60}
	simtest.Exact(ex)
	return ex
}

// handOver flies the exercise, to its end or for so many ticks, into a folder.
func handOver(t *testing.T, path string, ticks int) debrief.Report {
	t.Helper()
	s, err := sim.New(tiny(t), 1)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	s.Attempt = order.Attempt{Trainee: "A Trainee", Started: time.Date(2031, 5, 2, 7, 30, 0, 0, time.UTC)}
	f, err := folder.New(path, false)
	if err != nil {
		t.Fatal(err)
	}
	w := Attach(s, sim.Attend(s), f)
	s.Advance(ticks)
	s.Close(order.ReasonInterrupted)
	report, err := w.Finish()
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Commit(); err != nil {
		t.Fatal(err)
	}
	return report
}

// A pipeline that was charted is on the chart handed over, one that was not is not;
// the debrief's chart has both.
func TestChartsHaveTheirPipelines(t *testing.T) {
	draw := func(pipes ...seabed.Pipeline) (overview, reckoning []byte) {
		ex := tiny(t)
		ex.Seabed.Pipelines = pipes
		s, err := sim.New(ex, 1)
		if err != nil {
			t.Fatal(err)
		}
		s.Close(order.ReasonInterrupted)
		w := Attach(s, sim.Attend(s), nil)
		return w.overview(mosaic.Picture{}).Pix, w.reckoning(mosaic.Picture{}, debrief.Report{}).Pix
	}
	pipe := seabed.Pipeline{Name: "main", Path: []seabed.Point{{X: 20, Y: 240}, {X: 280, Y: 300}}, Diameter: 0.5}
	charted := pipe
	charted.Charted = true
	bareOverview, bareReckoning := draw()
	withOverview, withReckoning := draw(charted)
	hiddenOverview, hiddenReckoning := draw(pipe)
	if bytes.Equal(bareOverview, withOverview) || bytes.Equal(bareReckoning, withReckoning) {
		t.Error("a charted pipeline is missing")
	}
	if !bytes.Equal(bareOverview, hiddenOverview) {
		t.Error("the chart handed over tells of a pipeline that was not charted")
	}
	if !bytes.Equal(withReckoning, hiddenReckoning) {
		t.Error("the debrief's chart lacks a pipeline that was not charted")
	}
}

func TestFolderHoldsEverything(t *testing.T) {
	path := filepath.Join(t.TempDir(), "survey")
	report := handOver(t, path, 1<<20)
	want := []string{
		"contacts.geojson", "contents.json", "coverage.tif", "debrief.html", "debrief.json", "lines.geojson", "mosaic.tif",
		"overview.png", "session.jsonl", "track.csv", "truth.geojson", "waterfall-L1-450.png",
	}
	var got []string
	entries, err := os.ReadDir(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if !slices.Equal(got, want) {
		t.Errorf("folder holds %v, want %v", got, want)
	}
	if report.Partial {
		t.Error("a whole survey says it is partial")
	}
	for _, name := range []string{"overview.png", "waterfall-L1-450.png"} {
		f, err := os.Open(filepath.Join(path, name))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := png.Decode(f); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		f.Close()
	}
	f, err := os.Open(filepath.Join(path, "track.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 60 {
		t.Errorf("the track has %d rows, want one a second", len(rows))
	}
	for i, cell := range rows[len(rows)/2] {
		if rows[0][i] == "altitude_m" {
			if v, err := strconv.ParseFloat(cell, 64); err != nil || v < 1 || v > 12 {
				t.Errorf("altitude in the track: %q", cell)
			}
		}
	}
	// Nothing is left beside the folder.
	if left, _ := filepath.Glob(filepath.Join(filepath.Dir(path), ".*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestSameBytesEveryTime(t *testing.T) {
	root := t.TempDir()
	a, b := filepath.Join(root, "a"), filepath.Join(root, "b")
	handOver(t, a, 1<<20)
	handOver(t, b, 1<<20)
	entries, err := os.ReadDir(a)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		x, err := os.ReadFile(filepath.Join(a, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		y, err := os.ReadFile(filepath.Join(b, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		if string(x) != string(y) {
			t.Errorf("%s differs between two runs", e.Name())
		}
	}
}

// A survey cut off in the middle of its line still hands over, and says so
// wherever one might look.
func TestPartialSurvey(t *testing.T) {
	for _, test := range []struct {
		name   string
		ticks  int
		mosaic bool
	}{{"in the middle of the line", 600, true}, {"before anything was logged", 20, false}} {
		path := filepath.Join(t.TempDir(), "survey")
		report := handOver(t, path, test.ticks)
		if !report.Partial {
			t.Errorf("%s: the report does not say it is partial", test.name)
		}
		text, err := os.ReadFile(filepath.Join(path, "debrief.json"))
		if err != nil {
			t.Fatal(err)
		}
		var r struct {
			Partial bool `json:"partial"`
		}
		if err := json.Unmarshal(text, &r); err != nil || !r.Partial {
			t.Errorf("%s: debrief.json: partial %v, error %v", test.name, r.Partial, err)
		}
		page, err := os.ReadFile(filepath.Join(path, "debrief.html"))
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(strings.ToLower(string(page)), "partial") {
			t.Errorf("%s: debrief.html does not say it is partial", test.name)
		}
		log, err := os.Open(filepath.Join(path, SessionFile))
		if err != nil {
			t.Fatal(err)
		}
		l, err := order.ReadLog(log)
		log.Close()
		if err != nil || l.Reason != order.ReasonInterrupted || l.Ticks != int64(test.ticks) {
			t.Errorf("%s: the log ends at %v, error %v", test.name, l, err)
		}
		if _, err := os.Stat(filepath.Join(path, "mosaic.tif")); (err == nil) != test.mosaic {
			t.Errorf("%s: mosaic.tif: %v", test.name, err)
		}
	}
}

// GDAL, an outside reader, finds the ball where the exercise put it, in UTM.
func TestGDALReadsTheMosaic(t *testing.T) {
	for _, tool := range []string{"gdalinfo", "gdallocationinfo"} {
		if _, err := exec.LookPath(tool); err != nil {
			if os.Getenv("DRYLINE_REQUIRE_TOOLS") != "" {
				t.Fatalf("%s is not installed", tool)
			}
			t.Skipf("%s is not installed; Debian has it in gdal-bin", tool)
		}
	}
	path := filepath.Join(t.TempDir(), "survey")
	handOver(t, path, 1<<20)
	out, err := exec.Command("gdalinfo", filepath.Join(path, "mosaic.tif")).CombinedOutput()
	if err != nil {
		t.Fatalf("gdalinfo: %v\n%s", err, out)
	}
	for _, want := range []string{
		"LAYOUT=COG", `ID["EPSG",32625]`, "Pixel Size = (0.250000000000000,-0.250000000000000)", "AREA_OR_POINT=Area", "NoData Value=0",
		"Description = levelled echo amplitude", "Unit Type: grey level", "TIFFTAG_COPYRIGHT=CC0-1.0",
		fmt.Sprintf("dryline_engine=%d", provenance.Engine), "ground_step_m=0.015625\n", "seed=1\n", "exercise=tiny\n", "exercise_sha256=00\n",
	} {
		if !strings.Contains(string(out), want) {
			t.Errorf("gdalinfo does not say %q", want)
		}
	}
	// Its corner lies on whole cells of the grid, so that two mosaics register.
	var east, north float64
	if at := strings.Index(string(out), "Origin = ("); at < 0 {
		t.Error("gdalinfo names no origin")
	} else if _, err := fmt.Sscanf(string(out[at:]), "Origin = (%f,%f)", &east, &north); err != nil || math.Mod(east, 0.25) != 0 || math.Mod(north, 0.25) != 0 {
		t.Errorf("origin %v, %v is not on whole cells of 0.25 m (%v)", east, north, err)
	}
	ex := tiny(t)
	read := func(file string, x, y float64) int {
		e, n := ex.Place.Grid.ToUTM(x, y)
		out, err := exec.Command("gdallocationinfo", "-valonly", "-geoloc", filepath.Join(path, file),
			fmt.Sprintf("%.3f", e), fmt.Sprintf("%.3f", n)).Output()
		if err != nil {
			t.Fatalf("gdallocationinfo: %v", err)
		}
		v, err := strconv.Atoi(strings.TrimSpace(string(out)))
		if err != nil {
			t.Fatalf("gdallocationinfo said %q", out)
		}
		return v
	}
	brightest := 0
	for dy := -0.5; dy <= 0.5; dy += 0.25 {
		for dx := -0.5; dx <= 0.5; dx += 0.25 {
			brightest = max(brightest, read("mosaic.tif", ball.At.X+dx, ball.At.Y+dy))
		}
	}
	floor := read("mosaic.tif", ball.At.X-6, ball.At.Y-8)
	if brightest < 200 || floor > 190 || floor == 0 {
		t.Errorf("at the ball %d, on the mud %d; want a strong echo and an ordinary one", brightest, floor)
	}
	if looks := read("coverage.tif", ball.At.X, ball.At.Y); looks != 1 {
		t.Errorf("looks at the ball: %d, want 1", looks)
	}
}
