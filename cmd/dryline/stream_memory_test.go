package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"runtime"
	"strings"
	"testing"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/vessel/nav/nmea"
)

// bay is a watch of ten hours: two lines up and down, over and over, with the winch
// at work.
func bay(t *testing.T) *exercise.Exercise {
	t.Helper()
	order := strings.TrimSuffix(strings.Repeat("L1, -L2, ", 72), ", ")
	source := fmt.Sprintf(`title: A bay
briefing: Up and down for ten hours.
seed: 5
place: {name: Fenwarra Inlet, latitude_deg: 47.2, longitude_deg: -33.4}
sea: {wind_kn: 12, current_kn: 0.4}
seabed:
  east_m: 300
  north_m: 900
  depth_m: 18
  relief: {height_m: 2, wavelength_m: 150}
  objects:
    - {name: rock, kind: boulder, at: [106, 420], height_m: 2}
sonar:
  range_scale_m: 50
  channels:
    - {name: "450", frequency_khz: 450}
lines:
  - {name: L1, from: [100, 200], to: [100, 700]}
  - {name: L2, from: [180, 200], to: [180, 700]}
plan: {order: [%s], cable_out_m: 15, run_in_m: 90, altitude_m: 5, altitude_band_m: 0.3, time_limit_min: 600}
`, order)
	ex, err := scenarios.Parse("bay.yaml", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	return ex
}

// An unattended stream takes no more memory after ten hours than after ten minutes,
// and after ten minutes little more than after one: some tiles of the floor under
// its way. Most of an hour of it, and all of it where DRYLINE_LONG is set, as in CI.
func TestStreamTakesNoMoreAndMoreMemory(t *testing.T) {
	hours := 0.7
	if os.Getenv("DRYLINE_LONG") != "" {
		hours = 9.9 // the exercise ends at ten
	}
	ex := bay(t)
	s, err := instruments(ex, 5)
	if err != nil {
		t.Fatal(err)
	}
	held := func() float64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc) / 1e3
	}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var after []float64 // kB: one minute, and every ten from there
	said := 0
	p := player{
		passage: s, kinds: nmea.Kinds(), rate: 1, source: nmea.Source{Grid: ex.Place.Grid, Start: ex.Start},
		outlets: []outlet{counter{&said}},
		wait: func(_ context.Context, due float64) {
			if due >= 60+600*float64(len(after)) {
				after = append(after, held())
			}
			if due > hours*3600 {
				cancel()
			}
		},
	}
	p.play(ctx)
	t.Logf("kB after a minute and every ten more: %.0f", after)
	if s.Now() < hours*3600 || said == 0 {
		t.Fatalf("%d sentences in %.0f s, want %g h of them", said, s.Now(), hours)
	}
	if grown := after[1] - after[0]; grown > 1200 {
		t.Errorf("%.0f kB more after eleven minutes than after one, want less than eight tiles of the floor", grown)
	}
	for i, kB := range after[1:] {
		if grown := kB - after[1]; grown > 50 {
			t.Fatalf("%.0f kB more after %d minutes than after eleven, want less than 50", grown, 11+10*i)
		}
	}
}

// Flying without sonar and desk changes no sentence.
func TestStreamSaysWhatTheInstrumentsOfARunShow(t *testing.T) {
	ex := bay(t)
	bare, err := instruments(ex, 5)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := sim.New(ex, 5)
	if err != nil {
		t.Fatal(err)
	}
	whole.AttachMate()
	a := player{passage: bare, kinds: nmea.Kinds(), source: nmea.Source{Grid: ex.Place.Grid, Start: ex.Start}}
	b := a
	b.passage = whole.Passage
	for range 240 {
		bare.Advance(10)
		whole.Advance(10)
		if got, want := bytes.Join(a.report(), nil), bytes.Join(b.report(), nil); !bytes.Equal(got, want) {
			t.Fatalf("at %g s: got\n%s\nwant\n%s", bare.Now(), got, want)
		}
	}
	if len(whole.Desk.Track) < 200 || len(whole.Commands) < 4 {
		t.Errorf("the whole session kept %d fixes and %d orders: no test", len(whole.Desk.Track), len(whole.Commands))
	}
}

// counter is an outlet that counts.
type counter struct{ n *int }

func (c counter) name() string            { return "a counter" }
func (c counter) send(sentences [][]byte) { *c.n += len(sentences) }
func (c counter) close()                  {}
func (c counter) tally() string           { return fmt.Sprint(*c.n) }
