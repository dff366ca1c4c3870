package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// tyrePond has three to six tyres wherever chance lays them, out of a strip along
// its line.
const tyrePond = `title: A pond with tyres
briefing: Find the tyres.
place: {name: Fenwarra Inlet, latitude_deg: 47.2, longitude_deg: -33.4}
seabed:
  east_m: 300
  north_m: 600
  depth_m: 14
  sediment: {base: mud}
  placed:
    - {name: tyre, fewest: 3, most: 6, kinds: [{kind: tyre}], spacing_m: %g, keep_off: [{line: L1, distance_m: 10}]}
sonar:
  range_scale_m: 50
  samples: 200
  rays: 1
  channels: [{name: "450", frequency_khz: 450}]
lines: [{name: L1, from: [100, 160], to: [100, 200]}]
plan: {cable_out_m: 15, run_in_m: 60, run_out_m: 10}
`

// What is left to chance lies elsewhere with another seed and the same with the
// same, where it may lie; the debrief, the truth's file and a replay agree.
func TestWhatChancePlacesIsTheSeeds(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "pond.yaml")
	write := func(spacing float64) {
		if err := os.WriteFile(file, fmt.Appendf(nil, tyrePond, spacing), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(20)
	dryline := func(want int, args ...string) string {
		t.Helper()
		var stdout, stderr bytes.Buffer
		if status := Main(args, &stdout, &stderr); status != want {
			t.Fatalf("dryline %s: status %d, want %d\n%s", strings.Join(args, " "), status, want, stderr.String())
		}
		return stdout.String() + stderr.String()
	}
	tyres := func(folder string) (at [][2]float64) {
		t.Helper()
		text, err := os.ReadFile(filepath.Join(folder, "truth.geojson"))
		if err != nil {
			t.Fatal(err)
		}
		var truth struct {
			Features []struct {
				Properties struct {
					MadeOf   string  `json:"made_of"`
					Easting  float64 `json:"easting_m"`
					Northing float64 `json:"northing_m"`
				}
			}
		}
		if err := json.Unmarshal(text, &truth); err != nil {
			t.Fatal(err)
		}
		for _, f := range truth.Features {
			if f.Properties.MadeOf != "rubber" {
				t.Errorf("a tyre made of %q", f.Properties.MadeOf)
			}
			at = append(at, [2]float64{f.Properties.Easting, f.Properties.Northing})
		}
		return at
	}
	one, again, two := filepath.Join(dir, "one"), filepath.Join(dir, "again"), filepath.Join(dir, "two")
	dryline(exitOK, "run", file, "--seed", "1", "-o", one)
	dryline(exitOK, "replay", filepath.Join(one, "session.jsonl"), "-o", again)
	dryline(exitOK, "run", file, "--seed", "2", "-o", two)
	first := tyres(one)
	if n := len(first); n < 3 || n > 6 {
		t.Errorf("%d tyres, want 3 to 6", n)
	}
	if !slices.Equal(first, tyres(again)) {
		t.Error("a replay has the tyres elsewhere")
	}
	if slices.Equal(first, tyres(two)) {
		t.Error("another seed has the tyres at the same places")
	}
	for i, a := range first {
		for _, b := range first[:i] {
			if d := math.Hypot(a[0]-b[0], a[1]-b[1]); d < 20 {
				t.Errorf("tyres %g m apart, want 20", d)
			}
		}
	}
	if said := dryline(exitOK, "check", file); !strings.Contains(said, " objects") || strings.Contains(said, " 0 objects") {
		t.Errorf("check: %s", said)
	}

	write(400) // no room for three
	for _, command := range []string{"check", "run", "stream"} {
		if said := dryline(exitUsage, command, file); !strings.Contains(said, `placing "tyre"`) || strings.Count(said, "\n") > 2 {
			t.Errorf("%s of tyres without room: %s", command, said)
		}
	}
}
