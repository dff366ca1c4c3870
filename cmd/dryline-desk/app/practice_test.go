package app

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dryline/scenarios"

	"github.com/hajimehoshi/ebiten/v2"
)

// Values are said as people say them.
func TestValuesAreSpoken(t *testing.T) {
	for _, row := range []struct{ value, want string }{
		{"true", "yes"}, {"false", "no"}, {"survey_launch", "survey launch"},
		{"armoured_17mm", "armoured 17 mm"}, {"soft", "soft"}, {"12", "12"}, {"mm", "mm"},
	} {
		if got := spoken(row.value); got != row.want {
			t.Errorf("%q: got %q, want %q", row.value, got, row.want)
		}
	}
}

// Of a choice every option is told.
func TestOptionsOfAChoiceAreTold(t *testing.T) {
	ex, err := scenarios.Find("first-line")
	if err != nil {
		t.Fatal(err)
	}
	p, err := NewPractice(ex)
	if err != nil {
		t.Fatal(err)
	}
	choices := 0
	for i := range p.fields {
		f := &p.fields[i]
		says := strings.Join(explains(f), "\n")
		for _, c := range f.Choices {
			choices++
			if !strings.Contains(says, spoken(c)) {
				t.Errorf("%s: %q is not told: %q", f.Label, c, says)
			}
		}
	}
	if choices == 0 {
		t.Error("there is nothing to choose")
	}
}

// The way back from practice leads to the exercise it came from.
func TestTheWayBackLeadsToTheExercise(t *testing.T) {
	for _, name := range []string{"first-line", "sloping-bank", "disused-anchorage"} {
		if _, _, got := chooseAt(name).Inspect(); got != name {
			t.Errorf("%s: %v is chosen", name, got)
		}
	}
	if c := chooseAt("none of them"); c.deck.chosen != 0 {
		t.Errorf("an exercise that is not listed chooses %d", c.deck.chosen)
	}
}

// practised is free practice of an exercise with some values typed.
func practised(t *testing.T, name string, typed map[string]string) *Practice {
	t.Helper()
	p, err := NewPractice(exerciseNamed(t, name))
	if err != nil {
		t.Fatal(err)
	}
	for path, value := range typed {
		i := slices.IndexFunc(p.fields, func(f scenarios.Field) bool { return f.Path == path })
		if i < 0 {
			t.Fatalf("%s has no field %s", name, path)
		}
		p.change(i, value)
	}
	return p
}

// What is drawn comes of the values as typed: the floor seen by the right triangle of range
// scale and height (slant range to ground range), the band by its shares of the range scale
// (8 to 20 %: NOAA Hydrographic Surveys Specifications and Deliverables 2021, 6.1.2), the gap by 25 m of 150 (IHO C-13, chapter 4, 2.3.3.3).
func TestWhatIsDrawnComesOfWhatIsTyped(t *testing.T) {
	near := func(what string, got, want, within float64) {
		t.Helper()
		if math.Abs(got-want) > within {
			t.Errorf("%s: got %.3f, want %.3f", what, got, want)
		}
	}
	d := practised(t, "rising-floor", map[string]string{"sonar.range_scale_m": "150", "seabed.depth_m": "30", "plan.altitude_m": "20"}).drawn
	near("height", d.height, 20, 0.01)
	near("fish under water", d.fish.Depth, 10, 0.01)
	near("floor seen", d.reach, math.Sqrt(150*150-20*20), 0.01)
	near("floor a fish is good for", d.usable, d.reach, 0)
	near("gap", d.gap, 25, 0.01)
	near("lowest height wanted", d.low, 12, 0.01)
	near("highest", d.high, 30, 0.01)

	// A stream to the east runs across a line to the north with all it has, and one to the
	// north-east with the sine of 45 degrees; the wind blows from where it is said to.
	stream := practised(t, "first-line", map[string]string{"sea.current_kn": "1", "sea.current_set_deg": "90", "sea.wind_kn": "10", "sea.wind_from_deg": "270"}).drawn
	const knot = 1852.0 / 3600
	near("stream across", stream.surface.across(stream.bearing), knot, 0.001)
	near("wind to the east", stream.wind.east, 10*knot, 0.001)
	slant := practised(t, "first-line", map[string]string{"sea.current_kn": "1", "sea.current_set_deg": "45"}).drawn
	near("half of it across", slant.surface.across(slant.bearing), knot*math.Sqrt(0.5), 0.001)

	// Less cable, or more speed, and the fish is higher (the handling of every towed body).
	short := practised(t, "first-line", map[string]string{"plan.cable_out_m": "10"}).drawn
	long := practised(t, "first-line", map[string]string{"plan.cable_out_m": "20"}).drawn
	fast := practised(t, "first-line", map[string]string{"plan.cable_out_m": "20", "plan.speed_kn": "6"}).drawn
	if !(short.height > long.height && fast.height > long.height && fast.fish.Layback > long.fish.Layback) {
		t.Errorf("heights %.1f m at 10 m of cable, %.1f at 20, %.1f faster", short.height, long.height, fast.height)
	}

	low := practised(t, "rising-floor", map[string]string{"plan.altitude_m": "3"}).drawn
	if why, is := low.outside(); !is || why != "too low" || !(low.usable < low.reach) {
		t.Errorf("3 m at 75: %q, good for %.1f of %.1f m", why, low.usable, low.reach)
	}
	deep := practised(t, "first-line", map[string]string{"plan.cable_out_m": "60"})
	if len(deep.faults) != 1 || deep.drawn.cable != 16 { // the file would be refused
		t.Errorf("60 m of cable in 18 m of water: faults %q, %g m drawn", deep.faults, deep.drawn.cable)
	}
	aground := *deep.exercise
	aground.Plan.CableOut = 60
	floor := towedBy(&aground)
	if why, is := floor.outside(); !is || why != "on the floor" || !strings.Contains(strings.Join(floor.says(), " "), "on the floor") {
		t.Errorf("60 m of cable in 18 m of water: %q, %q", why, floor.says())
	}
	water := practised(t, "rising-floor", map[string]string{"seabed.depth_m": "100", "plan.altitude_m": "90"}).drawn
	if water.reach != 0 || !strings.Contains(strings.Join(water.says(), " "), "ends before the floor") {
		t.Errorf("75 m of range 90 m up sees %.1f m of floor", water.reach)
	}
}

// A value that will not do is said and marked as it is typed, and the drawing keeps the last
// that did; put right, the fault is gone.
func TestFaultsAreSaidAsTheyAreTyped(t *testing.T) {
	p := practised(t, "first-line", map[string]string{"sonar.range_scale_m": "100"})
	i := slices.IndexFunc(p.fields, func(f scenarios.Field) bool { return f.Path == "sonar.range_scale_m" })
	cable := slices.IndexFunc(p.fields, func(f scenarios.Field) bool { return f.Path == "plan.cable_out_m" })
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	p.group = slices.Index(p.groups, "Sonar")
	g.next = p
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	frame(g, dst)
	input := p.inputs[i]
	p.change(i, "5")
	frame(g, dst)
	if len(p.faults) != 1 || !strings.HasPrefix(p.faults[0], "Range scale: 5 ") || !p.faulty["sonar.range_scale_m"] {
		t.Fatalf("faults %q", p.faults)
	}
	if p.drawn.rangeScale != 100 {
		t.Errorf("a range scale of %g m is drawn, want the last that would do", p.drawn.rangeScale)
	}
	if says, ink, _ := p.shown(g.Look, "", "sonar.range_scale_m"); says != "! Range scale: 5" || ink != g.Look.Alarm {
		t.Errorf("it is shown as %q", says)
	}
	if p.inputs[i] != input || p.names[i].Label != "! Range scale" || p.tabs[p.group].Text().Label != "Sonar !" {
		t.Errorf("marked %q and %q, field kept %v", p.names[i].Label, p.tabs[p.group].Text().Label, p.inputs[i] == input)
	}
	p.change(cable, "12") // others go on
	if p.drawn.cable != 12 || p.drawn.rangeScale != 100 {
		t.Errorf("with a fault elsewhere %g m of cable are drawn", p.drawn.cable)
	}
	p.change(i, "50")
	if len(p.faults) != 0 || p.drawn.rangeScale != 50 || p.names[i].Label != "Range scale" || p.tabs[p.group].Text().Label != "Sonar" {
		t.Errorf("put right: faults %q, %g m drawn, %q", p.faults, p.drawn.rangeScale, p.names[i].Label)
	}
	// All of them wrong at once, whatever is typed.
	for k, f := range p.fields {
		if f.Number {
			p.change(k, []string{"", "-1e9", "x", "NaN", "1e999", "[", "\t"}[k%7])
		}
	}
	frame(g, dst)
	if len(p.faults) < 5 {
		t.Errorf("faults %q", p.faults)
	}
	p.restore()
	if len(p.faults) != 0 || p.drawn.rangeScale != 75 {
		t.Errorf("reset: faults %q, %g m", p.faults, p.drawn.rangeScale)
	}
}
