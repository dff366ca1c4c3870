package scenarios

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar"

	"github.com/google/go-cmp/cmp"
)

// No effect is on unless the file gives it; given bare, a section is on with
// its defaults; people's units become the engine's.
func TestEffects(t *testing.T) {
	parse := func(effects string) sonar.Effects {
		t.Helper()
		e, err := Parse("x.yaml", []byte(edit(t, small(t), "plan:\n", effects+"plan:\n")))
		if err != nil {
			t.Fatal(err)
		}
		return e.Sonar.Effects
	}
	if got := parse(""); !cmp.Equal(got, sonar.Effects{}) {
		t.Errorf("left out: got %+v, want none", got)
	}
	if got := parse("effects: {}\n"); !cmp.Equal(got, sonar.Effects{}) {
		t.Errorf("empty: got %+v, want none", got)
	}
	got := parse(`vessel: { beam_m: 3, draft_m: 0.8 }
sea: { current_kn: 1, current_set_deg: 90 }
effects:
  surface_echo: true
  surface_ghosts: true
  second_bottom: true
  cross_talk_db: -40
  surface_bubbles: { noise_rise_db: 4 }
  wake: {}
  sounders: [{ frequency_khz: 200, interval_ms: 250, pulse_ms: 0.5, level_db: 99, offset_ms: 20 }]
  fish_schools: [{ at: [100, 120], depth_m: 9, heading_deg: 90, fish_length_cm: 30 }]
  kelp: [{ area: [[10, 10], [20, 10], [20, 30]], lets_through_percent: 50 }]
  gas_seeps: [{ at: [50, 60] }]
  fresh_springs: [{ at: [70, 60] }]
  layers: [{ depth_m: 6 }]
  mains_hum: { level_db: 80 }
  lost_pings: { single_percent: 2, bursts_per_1000: 5 }
`)
	want := sonar.Effects{
		SurfaceEcho: true, SurfaceGhosts: true, SecondBottom: true, CrossTalk: -40,
		Bubbles:  sonar.Bubbles{On: true, NoiseRise: 4},
		Wake:     sonar.Wake{Attenuation: 1, HalfLife: 60, Width: 3, Spread: 0.03, Depth: 1.6},
		Sounders: []sonar.Sounder{{Frequency: 200e3, Interval: 0.25, PulseLength: 0.5e-3, Level: 99, Offset: 0.02}},
		Schools:  []sonar.School{{X: 100, Y: 120, Depth: 9, Length: 10, Width: 6, Height: 2.5, Heading: math.Pi / 2, Density: 4, Fish: 0.3}},
		Kelp: []sonar.Kelp{{
			Area:   seabed.Area{Polygon: []seabed.Point{{X: 10, Y: 10}, {X: 20, Y: 10}, {X: 20, Y: 30}}},
			Height: 4, Radius: 0.25, Density: 0.4, Through: 0.5,
		}},
		Seeps:    []sonar.Seep{{X: 50, Y: 60, Rise: 0.23, Width: 0.4, Strength: -28}},
		Springs:  []sonar.Spring{{X: 70, Y: 60, Rise: 0.3, Width: 0.8, Strength: -40}},
		Layers:   []sonar.Layer{{Depth: 6, Thickness: 1, Strength: -55, Swell: 100}},
		Hum:      sonar.Hum{Level: 80, Frequency: 50, Sharpness: 4},
		Drops:    sonar.Drops{Share: 0.02, Bursts: 0.005, Length: 10},
		CurrentX: 1852.0 / 3600,
	}
	if math.Abs(got.CurrentY) < 1e-12 {
		got.CurrentY = 0
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}
