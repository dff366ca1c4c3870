package scenarios

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"math"
	"slices"
	"testing"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sonar/acoustics"
)

// What is left out follows from the rest of the file where no fixed value
// would be right.
func TestDerivedDefaults(t *testing.T) {
	source := edit(t, small(t),
		"  depth_m: 20", "  depth_m: 20\n  objects: [{ name: a, kind: container, at: [9, 90], width_m: 2.5 }]",
		"plan:\n", "vessel: { length_m: 15, antenna: { forward_m: 1 }, sheave: { forward_m: -7, up_m: 3 } }\nplan:\n")
	e, err := Parse("dir/small.one.yaml", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name      string
		got, want any
	}{
		{"name", e.Name, "small.one"},
		{"hash", e.Hash, fmt.Sprintf("%x", sha256.Sum256([]byte(source)))},
		{"seed", e.Seed, uint64(1)},
		{"sea.sample_depth_m", e.Sea.Water.Depth, 10.0},
		{"sea.backscatter_trend", e.Sea.Water.FlatTrend, false},
		{"object length, ISO 668", e.Seabed.Objects[0].Length, 6.06},
		{"object width", e.Seabed.Objects[0].Width, 2.5},
		{"object class", e.Seabed.Objects[0].Class, seabed.Unset},
		{"desk.sheave_height_m", e.Desk.SheaveHeight, 3.0},
		{"desk.antenna_to_tow_m", e.Desk.AntennaToTow, 8.0},
		{"desk.sound_speed_m_s", e.Desk.SoundSpeed, 1500.0},
		{"desk.mosaic_channel", e.Desk.MosaicChannel, 0},
		{"plan.lookahead_m", e.Plan.Lookahead, 30.0},
		{"plan.order", fmt.Sprint(e.Plan.Order), fmt.Sprint([]exercise.Run{{Line: 0}, {Line: 1, Reversed: true}})},
		{"place", e.Place.Grid.EPSG(), 32625}, // 36 to 30 degrees west is zone 25
	} {
		if row.got != row.want {
			t.Errorf("%s: got %v, want %v", row.name, row.got, row.want)
		}
	}
	w := e.Sea.Water
	loss := acoustics.FrancoisGarrison(100e3, w.Temperature, w.Salinity, w.Depth, w.PH)
	if got := e.Sonar.Channels[0].TVGAbsorption; got != loss {
		t.Errorf("TVG absorption: got %g dB/km, want the water's %g", got, loss)
	}
	if !bytes.Equal(e.Source, []byte(source)) {
		t.Error("source is not the file's")
	}
}

// The trend of backscatter is there unless it is refused.
func TestBackscatterTrend(t *testing.T) {
	for text, flat := range map[string]bool{"true": false, "false": true} {
		e, err := Parse("small.yaml", []byte(edit(t, small(t), "plan:\n", "sea: { backscatter_trend: "+text+" }\nplan:\n")))
		if err != nil {
			t.Fatal(err)
		}
		if got := e.Sea.Water.FlatTrend; got != flat {
			t.Errorf("backscatter_trend: %s: got a flat trend %v, want %v", text, got, flat)
		}
	}
}

// The order may run lines twice and turn them round.
func TestOrder(t *testing.T) {
	e, err := Parse("small.yaml", []byte(edit(t, small(t), "plan:\n", "plan:\n  order: [-L2, L1, L2]\n")))
	if err != nil {
		t.Fatal(err)
	}
	if want := []exercise.Run{{Line: 1, Reversed: true}, {Line: 0}, {Line: 1}}; !slices.Equal(e.Plan.Order, want) {
		t.Errorf("got %v, want %v", e.Plan.Order, want)
	}
}

// Every field says what leaving it out means, once.
func TestRulesAreComplete(t *testing.T) {
	var walk func(u *rule, path string)
	walk = func(u *rule, path string) {
		if u.form == mapping {
			keys := map[string]bool{}
			for _, f := range u.fields {
				at := join(path, f.key)
				said := 0
				for _, b := range []bool{f.required, f.fallback != nil, f.absent != "", f.form == mapping && !f.required} {
					if b {
						said++
					}
				}
				if said != 1 {
					t.Errorf("%s: got %d of required, default and absent, want one", at, said)
				}
				if f.key == "" || keys[f.key] || f.doc == "" {
					t.Errorf("%s: key is not its own or has no doc", at)
				}
				keys[f.key] = true
				walk(f, at)
			}
			return
		}
		leaf := u
		if u.form == list {
			if u.most == math.MaxInt {
				t.Errorf("%s: list without a bound", path)
			}
			if leaf = u.items; leaf.form == mapping {
				walk(leaf, path+"[]")
				return
			}
		}
		switch leaf.form {
		case number, integer, pair:
			if math.IsInf(leaf.lo, 0) || math.IsInf(leaf.hi, 0) || leaf.lo >= leaf.hi {
				t.Errorf("%s: range %q to %q is not finite", path, leaf.min, leaf.max)
			}
			if v, ok := u.fallback.(float64); ok && (v < u.lo || v > u.hi || u.above && v == u.lo) {
				t.Errorf("%s: default %g is out of range", path, v)
			}
		case text:
			if leaf.enum == nil && leaf.runes == 0 {
				t.Errorf("%s: text without a bound", path)
			}
			if v, ok := u.fallback.(string); ok && u.enum != nil && !slices.Contains(u.enum, v) {
				t.Errorf("%s: default %q is not known", path, v)
			}
		}
	}
	walk(rules(), "")
}
