package scenarios_test

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryline/scenarios"
	"dryline/seabed"
	"dryline/sim/order"
)

const sample = "../seabed/grid/testdata/"

// onDepths is an exercise over the plane of that sample: -(10.25 + e/5 + 2 n/5) at (e, n)
// metres from the middle of its first cell.
func onDepths(t *testing.T, folder, file, more string) string {
	t.Helper()
	data, err := os.ReadFile(sample + file)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, file), data, 0o644); err != nil {
		t.Fatal(err)
	}
	text := fmt.Sprintf(`title: On measured depths
briefing: Run a line.
place: { name: Nowhere, latitude_deg: 47.198335, longitude_deg: -35.402627 }
seabed:
  east_m: 120
  north_m: 100
  depth_m: 40
  sediment: { featureless: true }
  depths: { file: %s, sha256: "%x"%s }
sonar: { range_scale_m: 25, channels: [{ name: a, frequency_khz: 400, tvg_absorption_db_per_km: 100 }] }
lines: [{ name: L1, from: [20, 50], to: [40, 50] }]
plan: { cable_out_m: 4, run_in_m: 5, run_out_m: 5 }
`, file, sha256.Sum256(data), more)
	name := filepath.Join(folder, "exercise.yaml")
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

// The floor of a world on measured depths is the plane of the file, whether the file is
// in the world's own zone or in degrees.
func TestTheWorldHasTheFilesFloor(t *testing.T) {
	for file, tol := range map[string]float64{"float32-tiles-deflate-3.tif": 0.005, "geographic.tif": 0.15} {
		ex, err := scenarios.Load(onDepths(t, t.TempDir(), file, ""))
		if err != nil {
			t.Fatal(err)
		}
		if len(ex.Files) != 1 || ex.Files[0].Name != file {
			t.Fatalf("%s: the exercise rests on %d files", file, len(ex.Files))
		}
		w := seabed.New(ex.Seabed, 1)
		for _, p := range [][2]float64{{25, 30}, {60, 50}, {80, 60.5}, {33.3, 41.7}} {
			e, n := ex.Place.Grid.ToUTM(p[0], p[1])
			want := -(10.25 + (e-318002.5)/5 + 2*(n-5230002.5)/5)
			// The plane goes up by 0.4 m a metre: a tenth of a cell's placing is 0.2 m.
			if got := w.HeightAt(p[0], p[1]); math.Abs(got-want) > tol {
				t.Errorf("%s: the floor at %v is %.3f, want %.3f m", file, p, got, want)
			}
		}
	}
}

func TestFaultsOfDepths(t *testing.T) {
	folder := t.TempDir()
	name := onDepths(t, folder, "int16-strips-none-big.tif", "")
	good, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	for change, want := range map[[2]string]string{
		{"depth_m: 40", "depth_m: 400"}:                           "seabed.depth_m: 400 is not the mean of the depths measured",
		{"file: int16-strips-none-big.tif", "file: ../other.tif"}: "is not a file in the folder of the exercise",
		{"file: int16-strips-none-big.tif", "file: mosaic.tif"}:   "is the name of a file that every survey writes",
		{`, sha256: "c`, `, sha256: "x`}:                          "is no SHA-256",
		{"longitude_deg: -35.402627", "longitude_deg: -33.2"}:     "do not lie where the world does",
		{"  sediment:", "  relief: { height_m: 2 }\n  sediment:"}: "seabed.relief: stands beside measured depths",
		{"file: int16-strips-none-big.tif,", ""}:                  "seabed.depths.file: is missing",
		{"depths: { ", "depths: { values: down, "}:                "seabed.depth_m: 40 is not the mean",
		{"depths: { ", "depths: { epsg: 3857, "}:                  "EPSG:3857, want UTM",
		{"latitude_deg: 47.198335", "latitude_deg: 147"}:          "place.latitude_deg: 147 is out of range",
	} {
		text := strings.Replace(string(good), change[0], change[1], 1)
		if text == string(good) {
			t.Fatalf("%q is not in the file", change[0])
		}
		if err := scenarios.Fetch(good, folder); err != nil {
			t.Fatal(err)
		}
		if _, err := scenarios.Parse("exercise.yaml", []byte(text)); err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %v, want one line with %q", change[1], err, want)
		}
	}
}

// A log flies on the very same depths only.
func TestALogWantsTheSameDepths(t *testing.T) {
	folder, elsewhere := t.TempDir(), t.TempDir()
	name := onDepths(t, folder, "float64-strips-lzw-2.tif", "")
	source, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	log := &order.Log{}
	log.Exercise, log.Source, log.Hash = "exercise", source, fmt.Sprintf("%x", sha256.Sum256(source))
	if _, err := scenarios.FromLog(log, elsewhere); err == nil || !strings.Contains(err.Error(), "is not at hand") {
		t.Errorf("without the file: %v", err)
	}
	data, err := os.ReadFile(filepath.Join(folder, "float64-strips-lzw-2.tif"))
	if err != nil {
		t.Fatal(err)
	}
	data = bytes.Clone(data)
	data[len(data)-1] ^= 1
	if err := os.WriteFile(filepath.Join(elsewhere, "float64-strips-lzw-2.tif"), data, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := scenarios.FromLog(log, elsewhere); err == nil || !strings.Contains(err.Error(), "another file than the exercise names") || strings.Contains(err.Error(), "\n") {
		t.Errorf("with another file: %v", err)
	}
	if _, err := scenarios.FromLog(log, elsewhere, folder); err != nil {
		t.Errorf("with the file in the second folder: %v", err)
	}
}
