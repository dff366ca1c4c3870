//go:build !js

package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryline/scenarios"
	"dryline/sim/order"

	"github.com/hajimehoshi/ebiten/v2"
)

// A session on measured depths is killed half way; the exercise's folder is gone since. The
// program that is started next finds the depths beside the log.
func TestKilledOnMeasuredDepthsIsResumed(t *testing.T) {
	h := newHome(t)
	const tiff = "float32-tiles-deflate-3.tif"
	data, err := os.ReadFile("../../seabed/grid/testdata/" + tiff)
	if err != nil {
		t.Fatal(err)
	}
	folder := filepath.Join(h.dir, "plan")
	name, hash := filepath.Join(folder, "plane.yaml"), fmt.Sprintf("%x", sha256.Sum256(data))
	text := `title: On measured depths
briefing: Run a line.
place: { name: Nowhere, latitude_deg: 47.198335, longitude_deg: -35.402627 }
seabed: { east_m: 120, north_m: 100, depth_m: 40, sediment: { featureless: true }, depths: { file: ` + tiff + `, sha256: "` + hash + `" } }
sonar: { range_scale_m: 25, channels: [{ name: a, frequency_khz: 400, tvg_absorption_db_per_km: 100 }] }
lines: [{ name: L1, from: [20, 50], to: [40, 50] }]
plan: { cable_out_m: 4, run_in_m: 5, run_out_m: 5 }
`
	for file, content := range map[string][]byte{tiff: data, "plane.yaml": []byte(text)} {
		if err := write(filepath.Join(folder, file), content); err != nil {
			t.Fatal(err)
		}
	}
	d := openDesk(t, h, 1024, 600, name)
	d.tap(ebiten.KeySpace)
	d.until("time stands still", 2400, func(s *shown) bool { return s.Screen == "watch" && s.watch.Paused })
	d.tap(ebiten.KeyPageDown)
	if code := d.kill(); code != -1 {
		t.Fatalf("exit status %d, want it killed", code)
	}
	if err := os.RemoveAll(folder); err != nil {
		t.Fatal(err)
	}
	kept, err := os.ReadFile(filepath.Join(h.out(), "depths-"+hash+".tif"))
	if err != nil || !bytes.Equal(kept, data) {
		t.Fatalf("the depths are not kept: %v", err)
	}
	logs, _ := filepath.Glob(filepath.Join(h.out(), "*-watch.jsonl"))
	if len(logs) != 1 {
		t.Fatalf("%d logs are kept", len(logs))
	}
	d = openDesk(t, h, 1024, 600, logs[0])
	d.until("the watch goes on", 2400, func(s *shown) bool { return s.Screen == "watch" && s.watch.Restored == 1 })
	d.kill()
	// The command line finds it there too.
	log, err := os.ReadFile(logs[0])
	if err != nil {
		t.Fatal(err)
	}
	l, err := order.ReadLog(bytes.NewReader(log))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := scenarios.FromLog(l, h.out()); err != nil {
		t.Error(err)
	}
	// So does the page of sessions, which draws them.
	d = openDesk(t, h, 1024, 600)
	d.tap(ebiten.KeyR)
	d.ticks(30)
	d.button("On measured depths")
	if n := colours(d.picture("measured depths"), area(d.look().Panes["chart"])); n < 20 {
		t.Errorf("%d colours in the picture of the depths", n)
	}
	d.close()
	// Without them it says that it cannot be read, and stays where it is.
	if err := os.Remove(filepath.Join(h.out(), "depths-"+hash+".tif")); err != nil {
		t.Fatal(err)
	}
	d = openDesk(t, h, 1024, 600)
	d.tap(ebiten.KeyR)
	d.ticks(30)
	for _, b := range d.look().Buttons {
		if b.Label == "Resume it" || b.Label == "On measured depths" {
			t.Errorf("without its depths there is a button %q", b.Label)
		}
	}
	d.picture("no depths")
	d.tap(ebiten.KeyEnter)
	if d.look(); d.shown.Screen != "sessions" || !strings.Contains(d.shown.Notice, "cannot be resumed") {
		t.Errorf("%s, notice %q", d.shown.Screen, d.shown.Notice)
	}
}
