package main

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dryline/scenarios"
)

const setSpec = `title: Two lines
description: To stop and resume.
published: 2031-05-14
scenes: [{ exercise: pond.yaml, seeds: 3 }]
`

const setPond = `title: A pond
briefing: One short line over mud.
place: {name: Fenwarra Inlet, latitude_deg: 47.2, longitude_deg: -33.4}
seabed:
  east_m: 300
  north_m: 500
  depth_m: 14
  sediment: {base: mud}
  objects: [{name: ball, kind: sphere, at: [126, 270]}]
sonar: {range_scale_m: 50, samples: 800, rays: 3, channels: [{name: "450", frequency_khz: 450}]}
lines: [{name: L1, from: [100, 220], to: [100, 280]}]
plan: {cable_out_m: 15, run_in_m: 60, run_out_m: 10}
`

// stopper ends a context at the first word of progress.
type stopper func()

func (s stopper) Write(p []byte) (int, error) { s(); return len(p), nil }

// A set that is stopped after its first scene keeps that one and no part of another, and
// goes on to the same bytes as one that was not stopped.
func TestASetThatIsStoppedGoesOn(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"set.yaml": setSpec, "pond.yaml": setPond} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	spec, err := scenarios.LoadDataset(filepath.Join(dir, "set.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	make := func(path string, stop bool) error {
		done, err := beginSet(path, spec)
		if err != nil {
			return err
		}
		defer done()
		ctx, cancel := context.WithCancel(context.Background())
		defer cancel()
		m := setMaking{spec: spec, folder: path, workers: 1, progress: newSetProgress(stopper(func() {
			if stop {
				cancel()
			}
		}), len(spec.Scenes))}
		if _, err := m.scenes(ctx); err != nil {
			return err
		}
		return m.finish()
	}
	stopped, whole := filepath.Join(dir, "stopped"), filepath.Join(dir, "whole")
	err = make(stopped, true)
	if !errors.Is(err, context.Canceled) || !strings.Contains(err.Error(), "1 of 3 scenes are there; the same command resumes it") {
		t.Fatalf("stopped it says %v", err)
	}
	entries, err := os.ReadDir(filepath.Join(stopped, "scenes"))
	if err != nil || len(entries) != 1 {
		t.Errorf("stopped there are %v, want one scene: %v", entries, err)
	}
	if _, err := os.Stat(filepath.Join(stopped, "manifest.json")); err == nil {
		t.Error("a set that is not whole has a manifest")
	}
	first := filepath.Join(stopped, "scenes", spec.Scenes[0].Name, "contents.json")
	before, err := os.Stat(first)
	if err != nil {
		t.Fatal(err)
	}
	// What a run that died in the middle of a file leaves is taken away; what is not its own is not.
	for _, name := range []string{filepath.Join(stopped, ".manifest.json-123"), filepath.Join(stopped, ".mine.txt-123"), filepath.Join(whole, ".spec.yaml-7")} {
		if err := errors.Join(os.MkdirAll(filepath.Dir(name), 0o755), os.WriteFile(name, nil, 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(make(stopped, false), make(whole, false)); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{stopped, whole} {
		left, _ := filepath.Glob(filepath.Join(path, ".*"))
		left = slices.DeleteFunc(left, func(s string) bool { return filepath.Base(s) == ".mine.txt-123" })
		if _, err := os.Stat(filepath.Join(stopped, ".mine.txt-123")); err != nil || len(left) > 0 {
			t.Errorf("left behind: %v; %v", left, err)
		}
	}
	// Pictures, rasters and lists say where they come from.
	err = filepath.WalkDir(whole, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.Name() == "splits.json" || filepath.Ext(path) == "" || !strings.Contains(".png .tif .json .geojson .nc", filepath.Ext(path)) || e.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		says := regexp.MustCompile(`dryline_engine|[ ,] ?engine [0-9]`)
		if !says.Match(text) || !bytes.Contains(text, []byte("CC0-1.0")) && !bytes.Contains(text, []byte("CC0 1.0")) {
			t.Errorf("%s names no engine or no licence", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if after, err := os.Stat(first); err != nil || !os.SameFile(before, after) {
		t.Errorf("the first scene was made again: %v", err)
	}
	a, errA := os.ReadFile(filepath.Join(stopped, "manifest.json"))
	b, errB := os.ReadFile(filepath.Join(whole, "manifest.json"))
	if err := errors.Join(errA, errB); err != nil || !bytes.Equal(a, b) {
		t.Errorf("stopped and resumed it is another set: %v", err)
	}
}
