package scenarios

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Values change, sections that were not there are made, and the rest of the
// file, its comments among it, reads as before.
func TestEdit(t *testing.T) {
	source := "# how to read this\n" + edit(t, small(t), "  depth_m: 20", "  depth_m: 20 # at low water", "lines:\n", "# west to east\nlines:\n")
	out, err := Edit("small.yaml", []byte(source), []Change{
		{"seabed.depth_m", "24"}, {"sea.waves.fetch_km", "12"}, {"sea.wind_kn", "14"}, {"title", "1234"},
		{"sonar.channels[0].gain_db", "-3"}, {"help.coach", "false"}, {"plan.turn", "teardrop"}, {"vessel.kind", "workboat"},
	})
	if err != nil {
		t.Fatal(err)
	}
	e, err := Parse("small.yaml", out)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name      string
		got, want any
	}{
		{"depth", e.Seabed.Depth, 24.0}, {"wind", math.Round(e.Sea.WindSpeed * 3600 / 1852), 14.0}, {"waves", e.Sea.Waves.Hs > 0, true},
		{"text that looks like a number", e.Title, "1234"}, {"gain", e.Sonar.Channels[0].Gain, -3.0}, {"coach", e.Help.Coach, false},
		{"turn", string(e.Plan.Turn), "teardrop"}, {"untouched", e.Plan.CableOut, 20.0}, {"lines", len(e.Lines), 2},
	} {
		if row.got != row.want {
			t.Errorf("%s: got %v, want %v", row.name, row.got, row.want)
		}
	}
	for _, comment := range []string{"# how to read this", "# at low water", "# west to east"} {
		if !strings.Contains(string(out), comment) {
			t.Errorf("the comment %q is lost:\n%s", comment, out)
		}
	}
	again, err := Edit("small.yaml", out, nil)
	if err != nil || string(again) != string(out) {
		t.Errorf("an edit of nothing changes the file (%v)", err)
	}
}

// What will not do is said as of any file, with the path of its key.
func TestEditFaults(t *testing.T) {
	for _, row := range []struct {
		change Change
		want   string
	}{
		{Change{"sea.wind_kn", "90"}, "sea.wind_kn: 90 is out of range (want 0 to 60 kn)"},
		{Change{"sea.wind_kn", "strong"}, `sea.wind_kn: "strong" is not a number`},
		{Change{"sea.wind_kn", "1: 2"}, "sea.wind_kn: "},
		{Change{"sea.gale", "1"}, "sea.gale: is no key of an exercise"},
		{Change{"sonar.channels[3].gain_db", "1"}, "sonar.channels[3].gain_db: names no item of a list"},
		{Change{"sonar.channels", "1"}, "sonar.channels: is not a single value"},
		{Change{"sonar", "1"}, "sonar: is not a single value"},
		{Change{"title.more", "1"}, "title.more: is no key of an exercise"},
		{Change{"vessel.kind", "canoe"}, `vessel.kind: "canoe" is not known`},
		{Change{"plan.cable_out_m", "140"}, "plan.cable_out_m: 140 is more than all the cable"},
		{Change{"title", "a\xffb"}, "cannot be written"},
		{Change{"help.coach", "maybe"}, `help.coach: "maybe" is neither true nor false`},
	} {
		out, err := Edit("my.yaml", []byte(small(t)), []Change{row.change})
		var faults Faults
		if !errors.As(err, &faults) || !strings.Contains(err.Error(), row.want) || len(faults) != 1 || out != nil {
			t.Errorf("%+v: got error %v, want one fault with %q", row.change, err, row.want)
		}
	}
	if _, err := Edit("my.yaml", []byte("a: [\n"), nil); err == nil {
		t.Error("a broken file was edited")
	}
}

// The list is of fields there are, with bounds, and the exercise's own values
// are within them; setting each to what it is changes nothing of the exercise.
func TestFreePractice(t *testing.T) {
	for _, name := range names() {
		source, err := exercises.ReadFile("exercises/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		fields, err := FreePractice(name+".yaml", source)
		if err != nil {
			t.Fatal(err)
		}
		var changes []Change
		for _, f := range fields {
			if f.Group == "" || f.Label == "" || f.Doc == "" || f.Number != (len(f.Choices) == 0) {
				t.Errorf("%s: %+v", name, f)
			}
			if f.Value == "" {
				continue
			}
			changes = append(changes, Change{f.Path, f.Value})
			if v, err := strconv.ParseFloat(f.Value, 64); f.Number && (err != nil || v < f.Min || v > f.Max || math.IsInf(f.Max, 0)) {
				t.Errorf("%s: %s is %q, want %g to %g", name, f.Path, f.Value, f.Min, f.Max)
			}
			if !f.Number && !slices.Contains(f.Choices, f.Value) {
				t.Errorf("%s: %s is %q, want one of %v", name, f.Path, f.Value, f.Choices)
			}
		}
		if len(changes) < 15 {
			t.Errorf("%s: only %d fields have a value", name, len(changes))
		}
		out, err := Edit(name+".yaml", source, changes)
		if err != nil {
			t.Fatal(err)
		}
		before, _ := Parse("x.yaml", source)
		after, _ := Parse("x.yaml", out)
		if !reflect.DeepEqual(before.Sonar, after.Sonar) || before.Sea.WindSpeed != after.Sea.WindSpeed || before.Plan.Speed != after.Plan.Speed || before.Tow != after.Tow ||
			before.Vessel != after.Vessel || before.Seed != after.Seed {
			t.Errorf("%s: setting every field to what it is changed the exercise", name)
		}
	}
}

// A current that fades is that of the surface on top and a seventh root of the
// height over the floor below (DNV-RP-C205, 4.1.4): half way down 0.5^(1/7).
func TestCurrentFades(t *testing.T) {
	source, err := exercises.ReadFile("exercises/first-line.yaml")
	if err != nil {
		t.Fatal(err)
	}
	out, err := Edit("x.yaml", source, []Change{{"sea.current_kn", "2"}, {"sea.current_set_deg", "90"}, {"sea.current_fades", "true"}})
	if err != nil {
		t.Fatal(err)
	}
	ex, err := Parse("x.yaml", out)
	if err != nil {
		t.Fatal(err)
	}
	top := knots(2)
	for share, want := range map[float64]float64{0: top, 0.5: top * math.Pow(0.5, 1.0/7), 0.9: top * math.Pow(0.1, 1.0/7)} {
		if east, north := ex.Sea.Current.At(-share * ex.Seabed.Depth); math.Abs(east-want) > 1e-9 || math.Abs(north) > 1e-9 {
			t.Errorf("%.0f %% down: got %.4f east, %.4f north, want %.4f east", 100*share, east, north, want)
		}
	}
}

// Of a current in layers every layer can be changed, and nothing that the layers
// overrule; one without layers has its speed and set.
func TestFreePracticeOfALayeredCurrent(t *testing.T) {
	for name, want := range map[string][]string{
		"sloping-bank":      {"Current at 0 m 0.9", "Current at 12 m 0.8", "Current at 24 m 0.5", "Set at 0 m 262", "Set at 12 m 258", "Set at 24 m 250"},
		"disused-anchorage": {"Current 0.5", "Current sets to 12", "Current fades with depth false"},
	} {
		source, err := exercises.ReadFile("exercises/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		fields, err := FreePractice(name+".yaml", source)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, f := range fields {
			if strings.HasPrefix(f.Path, "sea.current") {
				got = append(got, f.Label+" "+f.Value)
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: got %q, want %q", name, got, want)
		}
		if name != "sloping-bank" {
			continue
		}
		out, err := Edit(name+".yaml", source, []Change{{"sea.currents[1].speed_kn", "2.5"}})
		if err != nil {
			t.Fatal(err)
		}
		ex, err := Parse("x.yaml", out)
		if err != nil {
			t.Fatal(err)
		}
		before, _ := Parse("x.yaml", source)
		if x, y := ex.Sea.Current.At(-12); math.Abs(math.Hypot(x, y)-2.5*1852/3600) > 1e-9 {
			t.Errorf("changed to 2.5 kn at 12 m it runs %.3f m/s there", math.Hypot(x, y))
		}
		x, y := ex.Sea.Current.At(0)
		if bx, by := before.Sea.Current.At(0); bx != x || by != y {
			t.Error("the layer above changed with it")
		}
	}
}
