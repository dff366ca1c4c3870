package scenarios

import (
	"errors"
	"os"
	"strings"
	"testing"
)

// small is the least an exercise needs; the line numbers below are its own.
func small(t testing.TB) string {
	t.Helper()
	source, err := os.ReadFile("testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(source)
}

// edit replaces text that must be there exactly once.
func edit(t testing.TB, source string, oldNew ...string) string {
	t.Helper()
	for i := 0; i < len(oldNew); i += 2 {
		if n := strings.Count(source, oldNew[i]); n != 1 {
			t.Fatalf("%q stands %d times in the exercise, want once", oldNew[i], n)
		}
		source = strings.Replace(source, oldNew[i], oldNew[i+1], 1)
	}
	return source
}

// filed matches keys that name files.
const filed = "text of 1 to 20 characters, each a-z, A-Z, 0-9, _ - . or space, no dot or space first or last"

// faultRows are edits of the small exercise and what is said of them.
var faultRows = []struct {
	name string
	edit []string
	want string
}{
	// Of the form of the file.
	{"unknown key", []string{"  depth_m: 20", "  depth_m: 20\n  dept_m: 20"},
		"my.yaml:8: seabed.dept_m: is no key of an exercise (want depth_m)"},
	{"unknown key unlike any", []string{"low, frequency_khz: 100", "low, frequency_khz: 100, colour: red"},
		"my.yaml:11: sonar.channels[0].colour: is no key of an exercise (want one of name, frequency_khz, bandwidth_khz, pulse_ms, array_length_m, array_shading, pulse_shading, focus, focus_m, source_level_db, noise_figure_db, ring_down_ms, gain_db, tvg_spreading, tvg_absorption_db_per_km)"},
	{"wrong case", []string{"  depth_m: 20", "  Depth_M: 20"},
		"my.yaml:5: seabed.depth_m: is missing (want 2 to 500 m)\n" +
			"my.yaml:7: seabed.Depth_M: is no key of an exercise (want depth_m)"},
	{"odd key", []string{"  depth_m: 20", "  depth_m: 20\n  \"a b\": 1"},
		"my.yaml:8: seabed.\"a b\": is no key of an exercise (want one of east_m, north_m, depth_m, depths, relief, bedforms, flow, sediment, objects, pipelines, placed, elsewhere)"},
	{"key given twice", []string{"  depth_m: 20", "  depth_m: 20\n  depth_m: 30"},
		"my.yaml:8: seabed.depth_m: is given twice, first on line 7"},
	{"missing", []string{"  depth_m: 20\n", ""},
		"my.yaml:5: seabed.depth_m: is missing (want 2 to 500 m)"},
	{"missing section", []string{"plan:\n  cable_out_m: 20\n", ""},
		"my.yaml:1: plan: is missing (want keys with values)"},
	{"null", []string{"  depth_m: 20", "  depth_m:"},
		"my.yaml:7: seabed.depth_m: is given no value (want 2 to 500 m)"},
	{"null section", []string{"plan:\n  cable_out_m: 20", "plan: ~"},
		"my.yaml:15: plan: is given no value (want keys with values)"},
	{"text for a number", []string{"depth_m: 20", "depth_m: deep"},
		`my.yaml:7: seabed.depth_m: "deep" is not a number (want 2 to 500 m)`},
	{"quoted number", []string{"depth_m: 20", `depth_m: "20"`},
		`my.yaml:7: seabed.depth_m: "20" is not a number (want 2 to 500 m)`},
	{"list for a number", []string{"depth_m: 20", "depth_m: [20]"},
		"my.yaml:7: seabed.depth_m: a list is not a number (want 2 to 500 m)"},
	{"number for text", []string{"{ name: low,", "{ name: 100,"},
		"my.yaml:11: sonar.channels[0].name: 100 is not text (want " + filed + ", in quotes)"},
	{"number for a section", []string{"plan:\n  cable_out_m: 20", "plan: 20"},
		"my.yaml:15: plan: 20 is not keys with values (want keys with values)"},
	{"keys for a list", []string{"    - { name: low, frequency_khz: 100 }", "    { name: low, frequency_khz: 100 }"},
		"my.yaml:11: sonar.channels: a set of keys is not a list (want a list of 1 to 4)"},
	{"fraction for a whole number", []string{"  range_scale_m: 50", "  range_scale_m: 50\n  samples: 1000.5"},
		"my.yaml:10: sonar.samples: 1000.5 is not a whole number (want a whole number, 128 to 8192)"},
	{"text for a flag", []string{"  depth_m: 20", "  depth_m: 20\n  objects: [{ name: a, kind: block, at: [9, 9], charted: yes }]"},
		`my.yaml:8: seabed.objects[0].charted: "yes" is neither true nor false (want true or false)`},
	{"three coordinates", []string{"from: [150, 200]", "from: [150, 200, 3]"},
		"my.yaml:13: lines[0].from: a list is not a pair (want a pair [east, north], each -10000 to 15000 m)"},
	{"coordinate not a number", []string{"from: [150, 200]", "from: [150, north]"},
		`my.yaml:13: lines[0].from[1]: "north" is not a number (want -10000 to 15000 m)`},
	{"out of range", []string{"frequency_khz: 100", "frequency_khz: 90000"},
		"my.yaml:11: sonar.channels[0].frequency_khz: 90000 is out of range (want 10 to 2000 kHz)"},
	{"not finite", []string{"depth_m: 20", "depth_m: .inf"},
		"my.yaml:7: seabed.depth_m: .inf is not finite (want 2 to 500 m)"},
	{"not a number at all", []string{"depth_m: 20", "depth_m: .nan"},
		"my.yaml:7: seabed.depth_m: .nan is not finite (want 2 to 500 m)"},
	{"empty text", []string{"title: Small", `title: ""`},
		`my.yaml:1: title: "" is empty (want text of 1 to 80 characters)`},
	{"text too long", []string{"title: Small", "title: " + strings.Repeat("long ", 20)},
		`my.yaml:1: title: "long long long long long long long long ..." is too long (want text of 1 to 80 characters)`},
	{"name not known", []string{"plan:\n", "desk: { combine: beast }\nplan:\n"},
		`my.yaml:15: desk.combine: "beast" is not known (want best)`},
	{"name unlike any", []string{"plan:\n", "sea: { sound_speed_model: guess }\nplan:\n"},
		`my.yaml:15: sea.sound_speed_model: "guess" is not known (want one of mackenzie, unesco, medwin)`},
	{"too many channels", []string{"    - { name: low, frequency_khz: 100 }", "    [{}, {}, {}, {}, {}]"},
		"my.yaml:11: sonar.channels: has 5 items (want a list of 1 to 4)"},
	{"no lines", []string{"lines:\n  - { name: L1, from: [150, 200], to: [150, 400] }\n  - { name: L2, from: [230, 200], to: [230, 400] }", "lines: []"},
		"my.yaml:12: lines: has 0 items (want a list of 1 to 256)"},
	{"share of nothing", []string{"  depth_m: 20", "  depth_m: 20\n  sediment: { patches: [{ class: mud, area: { cover: 0 } }] }"},
		"my.yaml:8: seabed.sediment.patches[0].area.cover: 0 is out of range (want more than 0, at most 1)"},
	{"polygon of two", []string{"  depth_m: 20", "  depth_m: 20\n  sediment: { patches: [{ class: mud, area: { polygon: [[0, 0], [9, 9]] } }] }"},
		"my.yaml:8: seabed.sediment.patches[0].area.polygon: has 2 items (want a list of points of 3 to 200)"},
	{"alias", []string{"title: Small", "title: &a Small", "briefing: The least an exercise needs.", "briefing: *a"},
		"my.yaml:2: briefing: *a is an alias, which exercises do not use (want text of 1 to 4000 characters)"},
	{"tag", []string{"title: Small", "title: !secret Small"},
		`my.yaml:1: title: "Small" is not text (want text of 1 to 80 characters)`},
	{"syntax", []string{"title: Small", "title: [Small"},
		"my.yaml:1: is not an exercise: did not find expected ',' or ']'"},
	{"second document", []string{"cable_out_m: 20\n", "cable_out_m: 20\n---\ntitle: More\n"},
		"my.yaml:17: is not an exercise: a second document begins"},

	// Of the sections together.
	{"start", []string{"title: Small", "title: Small\nstart: tomorrow"},
		`my.yaml:2: start: "tomorrow" is not a date and time (want RFC 3339, such as 2031-05-14T08:30:00Z)`},
	{"start without a time", []string{"title: Small", "title: Small\nstart: 2031-05-14"},
		`my.yaml:2: start: "2031-05-14" is not a date and time (want RFC 3339, such as 2031-05-14T08:30:00Z)`},
	{"beyond UTM", []string{"latitude_deg: 47", "latitude_deg: 85"},
		"my.yaml:3: place.latitude_deg: 85 is beyond the reach of UTM (want -84 to 84 deg)"},
	{"world beyond UTM", []string{"latitude_deg: 47", "latitude_deg: 83.9999"},
		"my.yaml:3: place.latitude_deg: 83.9999 takes the world beyond the reach of UTM (want -84 to 84 deg)"},
	{"relief above the water", []string{"  depth_m: 20", "  depth_m: 20\n  relief: { gradient_percent: 8 }"},
		"my.yaml:7: seabed.depth_m: 20 lets the relief rise to within 1 m of the surface (want at least 25 m, or less relief)"},
	{"waves without length", []string{"  depth_m: 20", "  depth_m: 20\n  bedforms: [{ kind: waves, height_m: 1 }]"},
		"my.yaml:8: seabed.bedforms[0].wavelength_m: is missing (want waves need height_m, wavelength_m)"},
	{"ripples in still water", []string{"  depth_m: 20", "  depth_m: 20\n  bedforms: [{ kind: ripples, on: coarse_sand }]"},
		"my.yaml:8: seabed.bedforms[0].kind: a field of ripples goes by a flow, and there is none (want waves or a current in seabed.flow)"},
	{"mounds without number", []string{"  depth_m: 20", "  depth_m: 20\n  bedforms: [{ kind: mounds, height_m: 0.1, width_m: 0.8 }]"},
		"my.yaml:8: seabed.bedforms[0].density_per_ha: is missing (want mounds need height_m, density_per_ha, width_m)"},
	{"comets without width", []string{"  depth_m: 20", "  depth_m: 20\n  sediment: { patches: [{ class: gravel, marks: { kind: comets, count: 3, length_m: 40, depth_m: 1 } }] }"},
		"my.yaml:8: seabed.sediment.patches[0].marks.width_m: is missing (want comets need count, length_m, width_m)\n" +
			"my.yaml:8: seabed.sediment.patches[0].marks.depth_m: is not used by comets"},
	{"marks of no kind", []string{"  depth_m: 20", "  depth_m: 20\n  sediment: { patches: [{ class: gravel, marks: { count: 3 } }] }"},
		"my.yaml:8: seabed.sediment.patches[0].marks.kind: is missing (want one of discs, comets, trails, depressions, blots, heaps)"},
	{"settled by hand", []string{"  depth_m: 20", "  depth_m: 20\n  objects: [{ name: a, kind: block, at: [9, 9], settled: true, scour_m: 0.2 }]"},
		"my.yaml:8: seabed.objects[0].settled: a settled object goes by a flow, and there is none (want waves or a current in seabed.flow)\n" +
			"my.yaml:8: seabed.objects[0].scour_m: is not used by a settled object"},
	{"waves counted", []string{"  depth_m: 20", "  depth_m: 20\n  bedforms: [{ kind: waves, height_m: 1, wavelength_m: 9, count: 3 }]"},
		"my.yaml:8: seabed.bedforms[0].count: is not used by waves"},
	{"area of nothing", []string{"  depth_m: 20", "  depth_m: 20\n  sediment: { patches: [{ class: mud, area: { polygon: [[0, 0], [9, 9], [20, 20]] } }] }"},
		"my.yaml:8: seabed.sediment.patches[0].area.polygon: encloses less than a square metre (want corners in turn round an area)"},
	{"object outside", []string{"  depth_m: 20", "  depth_m: 20\n  objects: [{ name: a, kind: block, at: [401, 9] }]"},
		"my.yaml:8: seabed.objects[0].at: [401, 9] lies outside the world (want 0 to 400 east, 0 to 600 north)"},
	{"objects of one name", []string{"  depth_m: 20", "  depth_m: 20\n  objects:\n    - { name: a, kind: block, at: [9, 9] }\n    - { name: a, kind: tyre, at: [30, 9] }"},
		`my.yaml:10: seabed.objects[1].name: "a" is a name already used on line 9 (want a name of its own)`},
	{"object floating", []string{"  depth_m: 20", "  depth_m: 20\n  objects: [{ name: a, kind: block, at: [9, 9], burial_m: -0.1 }]"},
		"my.yaml:8: seabed.objects[0].burial_m: -0.1 is out of range (want 0 to 50 m)"},
	{"object buried", []string{"  depth_m: 20", "  depth_m: 20\n  objects: [{ name: a, kind: block, at: [9, 9], burial_m: 0.8 }]"},
		"my.yaml:8: seabed.objects[0].burial_m: 0.8 buries it whole (want less than its height of 0.8 m)"},
	{"object out of the water", []string{"  depth_m: 20", "  depth_m: 20\n  relief: { height_m: 3 }\n  objects: [{ name: a, kind: block, at: [9, 9], height_m: 17.5 }]"},
		"my.yaml:9: seabed.objects[0].height_m: 17.5 reaches the surface (want less than the depth of about 17 m there)"},
	{"sphere not round", []string{"  depth_m: 20", "  depth_m: 20\n  objects: [{ name: a, kind: sphere, at: [9, 9], height_m: 0.5 }]"},
		"my.yaml:8: seabed.objects[0]: is a sphere that is not round (want length_m, width_m and height_m the same)"},
	{"pipe not round", []string{"  depth_m: 20", "  depth_m: 20\n  objects: [{ name: a, kind: pipe, at: [9, 9], height_m: 0.7 }]"},
		"my.yaml:8: seabed.objects[0]: is a pipe that is not round (want width_m and height_m the same)"},
	{"tyre not round", []string{"  depth_m: 20", "  depth_m: 20\n  objects: [{ name: a, kind: tyre, at: [9, 9], height_m: 0.7 }]"},
		"my.yaml:8: seabed.objects[0]: is a tyre that is not round (want length_m and width_m the same, height_m at most half of that)"},
	{"winch", []string{"plan:\n", "tow: { cable: { length_m: 25 }, winch: { shortest_m: 25 } }\nplan:\n"},
		"my.yaml:15: tow.winch.shortest_m: 25 is more than all the cable (want less than 25 m)"},
	{"cable shorter than the winch allows", []string{"plan:\n", "tow: { winch: { shortest_m: 25 } }\nplan:\n"},
		"my.yaml:17: plan.cable_out_m: 20 is less than the winch allows (want at least 25 m)"},
	{"channels of one name", []string{"    - { name: low, frequency_khz: 100 }", "    - { name: low, frequency_khz: 100 }\n    - { name: low, frequency_khz: 400 }"},
		`my.yaml:12: sonar.channels[1].name: "low" is a name already used on line 11 (want a name of its own)`},
	{"bandwidth", []string{"frequency_khz: 100", "frequency_khz: 100, bandwidth_khz: 120"},
		"my.yaml:11: sonar.channels[0].bandwidth_khz: 120 is more than the frequency itself (want at most 100 kHz)"},
	{"chirp too short", []string{"frequency_khz: 100", "frequency_khz: 100, bandwidth_khz: 5"},
		"my.yaml:11: sonar.channels[0].pulse_ms: 0.1 is too short for the bandwidth of a chirp (want at least 0.2 ms)"},
	{"tone too long", []string{"frequency_khz: 100", "frequency_khz: 100, pulse_ms: 8"},
		"my.yaml:11: sonar.channels[0].pulse_ms: 8 smears a tenth of the range scale or more (want at most 6.666667 ms)"},
	{"array too short", []string{"frequency_khz: 100", "frequency_khz: 20, array_length_m: 0.1"},
		"my.yaml:11: sonar.channels[0].array_length_m: 0.1 is less than two wavelengths and makes no beam (want at least 0.15 m)"},
	{"gain beyond sense", []string{"frequency_khz: 100", "frequency_khz: 100, tvg_spreading: 200"},
		"my.yaml:11: sonar.channels[0].tvg_spreading: 200 is out of range (want 0 to 60)"},
	{"line outside", []string{"to: [230, 400]", "to: [430, 400]"},
		"my.yaml:14: lines[1].to: [430, 400] lies outside the world (want 0 to 400 east, 0 to 600 north)"},
	{"line too short", []string{"to: [230, 400]", "to: [235, 208]"},
		"my.yaml:14: lines[1]: is a line of 9.43 m (want at least 10 m)"},
	{"a wing on a feather", []string{"plan:\n", "tow: { fish: { weight_n: 20, mass_kg: 4, depressor_m2: 0.2 } }\nplan:\n"},
		"my.yaml:15: tow.fish.depressor_m2: 0.2 is more wing than so light a fish carries (want at most a hundredth of its mass in kg, 0.04 m^2)"},
	{"two laws of the current", []string{"plan:\n", "sea: { current_fades: true, currents: [{ depth_m: 5, speed_kn: 1, set_deg: 0 }] }\nplan:\n"},
		"my.yaml:15: sea.current_fades: true does not go with sea.currents, which say how it changes with depth (want one of the two)"},
	{"currents out of order", []string{"plan:\n", "sea: { currents: [{ depth_m: 5, speed_kn: 1, set_deg: 0 }, { depth_m: 5, speed_kn: 1, set_deg: 0 }] }\nplan:\n"},
		"my.yaml:15: sea.currents[1].depth_m: 5 is not below the one before (want more than 5 m)"},
	{"waves that break", []string{"plan:\n", "sea: { waves: { height_m: 8 } }\nplan:\n", "depth_m: 20", "depth_m: 15"},
		"my.yaml:15: sea.waves.height_m: 8 breaks in water that shallow (want at most half of seabed.depth_m, 7.5 m)"},
	{"no such hull", []string{"plan:\n", "vessel: { kind: lunch }\nplan:\n"},
		`my.yaml:15: vessel.kind: "lunch" is not known (want launch)`},
	{"lines of one name", []string{"name: L2", "name: L1"},
		`my.yaml:14: lines[1].name: "L1" is a name already used on line 13 (want a name of its own)`},
	{"lines of one file name", []string{"name: L2", "name: l1"},
		`my.yaml:14: lines[1].name: "l1" is a name already used on line 13 but for capitals (want a name of its own)`},
	{"channels of one file name", []string{"    - { name: low, frequency_khz: 100 }", "    - { name: low, frequency_khz: 100 }\n    - { name: LOW, frequency_khz: 400 }"},
		`my.yaml:12: sonar.channels[1].name: "LOW" is a name already used on line 11 but for capitals (want a name of its own)`},
	{"names that are paths", []string{"name: L1", "name: ../../L1", "name: L2", "name: .L2", "name: low", "name: 'low:1'"},
		`my.yaml:11: sonar.channels[0].name: "low:1" cannot be part of a file name (want ` + filed + ")\n" +
			`my.yaml:13: lines[0].name: "../../L1" cannot be part of a file name (want ` + filed + ")\n" +
			`my.yaml:14: lines[1].name: ".L2" cannot be part of a file name (want ` + filed + ")"},
	{"names with an end", []string{"name: L1", "name: 'L1.'", "name: L2", "name: 'L2 '", "name: low", "name: ' low'"},
		`my.yaml:11: sonar.channels[0].name: " low" cannot be part of a file name (want ` + filed + ")\n" +
			`my.yaml:13: lines[0].name: "L1." cannot be part of a file name (want ` + filed + ")\n" +
			`my.yaml:14: lines[1].name: "L2 " cannot be part of a file name (want ` + filed + ")"},
	{"names of nothing but dots", []string{"name: L1", "name: '.'", "name: L2", "name: '..'", "name: low", "name: tief-tön"},
		`my.yaml:11: sonar.channels[0].name: "tief-tön" cannot be part of a file name (want ` + filed + ")\n" +
			`my.yaml:13: lines[0].name: "." cannot be part of a file name (want ` + filed + ")\n" +
			`my.yaml:14: lines[1].name: ".." cannot be part of a file name (want ` + filed + ")"},
	{"names of one picture", []string{"name: L1", "name: L", "name: L2", "name: L-low", "    - { name: low, frequency_khz: 100 }", "    - { name: low-low, frequency_khz: 100 }\n    - { name: low, frequency_khz: 400 }"},
		`my.yaml:15: lines[1].name: "L-low" and channel low make the file name that line L and channel low-low make (want names that put together differ)`},
	{"line named reversed", []string{"name: L2", "name: -L2"},
		`my.yaml:14: lines[1].name: "-L2" begins with '-', which means reversed in plan.order (want another name)`},
	{"order names no line", []string{"plan:\n", "plan:\n  order: [L1, -L3]\n"},
		`my.yaml:16: plan.order[1]: "-L3" names no line (want L1)`},
	{"order names nothing like a line", []string{"plan:\n", "plan:\n  order: [L1, westmost]\n"},
		`my.yaml:16: plan.order[1]: "westmost" names no line (want the name of a line, or - and the name to run it reversed)`},
	{"faster than the vessel", []string{"plan:\n", "plan:\n  speed_kn: 11\n"},
		"my.yaml:16: plan.speed_kn: 11 is more than the vessel makes (want at most 10 kn)"},
	{"current", []string{"plan:\n", "sea: { current_kn: 5 }\nvessel: { speed_max_kn: 5 }\nplan:\n"},
		"my.yaml:15: sea.current_kn: 5 carries the vessel away (want less than 5 kn)"},
	{"run in", []string{"plan:\n", "plan:\n  run_in_m: 201\n"},
		"my.yaml:16: plan.run_in_m: 201 begins outside the world before line L1 (want room before the lines)"},
	{"run out", []string{"plan:\n", "plan:\n  run_out_m: 181\n"},
		"my.yaml:16: plan.run_out_m: 181 and the cable take the vessel out of the world after line L1 (want room beyond the lines)"},
	{"time limit", []string{"plan:\n", "plan:\n  time_limit_min: 3\n"},
		"my.yaml:16: plan.time_limit_min: 3 is too short for the lines alone (want more than 4 min)"},
	{"cable longer than there is", []string{"cable_out_m: 20", "cable_out_m: 121"},
		"my.yaml:16: plan.cable_out_m: 121 is more than all the cable (want at most 120 m)"},
	{"altitude", []string{"plan:\n", "plan:\n  altitude_m: 20\n"},
		"my.yaml:16: plan.altitude_m: 20 is more than the water is deep (want less than 20 m)"},
	{"focus without a range", []string{"frequency_khz: 100", "frequency_khz: 100, focus: fixed"},
		"my.yaml:11: sonar.channels[0].focus_m: 0 does not go with focus: fixed (want above 0 m with focus: fixed, and left out otherwise)"},
	{"cast out of order", []string{"plan:\n", "sea: { cast: [{ depth_m: 4, sound_speed_m_s: 1500 }, { depth_m: 2, sound_speed_m_s: 1490 }] }\nplan:\n"},
		"my.yaml:15: sea.cast[1].depth_m: 2 is not below the point before (want more than 4 m)"},
	{"cast twice over", []string{"plan:\n", "sea: { cast: [{ depth_m: 4, sound_speed_m_s: 1500, temperature_c: 9 }] }\nplan:\n"},
		"my.yaml:15: sea.cast[0].sound_speed_m_s: 1500 stands beside a temperature or a salinity (want either the speed or what it is made of)"},
	{"school in the air", []string{"plan:\n", "effects: { fish_schools: [{ at: [9, 9], depth_m: 1, height_m: 4 }] }\nplan:\n"},
		"my.yaml:15: effects.fish_schools[0].depth_m: 1 lets the school out of the water (want at least half its height of 4 m)"},
	{"school under the floor", []string{"plan:\n", "effects: { fish_schools: [{ at: [9, 9], depth_m: 30 }] }\nplan:\n"},
		"my.yaml:15: effects.fish_schools[0].depth_m: 30 puts the school under the floor (want less than the depth of about 20 m there)"},
	{"seep off the map", []string{"plan:\n", "effects: { gas_seeps: [{ at: [9, 900] }] }\nplan:\n"},
		"my.yaml:15: effects.gas_seeps[0].at: [9, 900] lies outside the world (want 0 to 400 east, 0 to 600 north)"},
	{"kelp on no ground", []string{"plan:\n", "effects: { kelp: [{ area: [[0, 0], [9, 0], [18, 0]] }] }\nplan:\n"},
		"my.yaml:15: effects.kelp[0].area: encloses less than a square metre (want corners in turn round an area)"},
	{"beacon that is not there", []string{"plan:\n", "desk: { position: filtered }\nplan:\n"},
		"my.yaml:15: desk.position: filtered asks for an acoustic beacon, and the fish has none (want track or heading, or instruments.beacon.on: true)"},
	{"position not known", []string{"plan:\n", "desk: { position: tracks }\nplan:\n"},
		`my.yaml:15: desk.position: "tracks" is not known (want track)`},
	{"outage that ends first", []string{"plan:\n", "instruments: { gnss: { outages: [{ from_s: 60, to_s: 30 }] } }\nplan:\n"},
		"my.yaml:15: instruments.gnss.outages[0].to_s: 30 is not after its beginning (want more than 60 s)"},
	{"altimeter without reach", []string{"plan:\n", "instruments: { altimeter: { min_m: 5, max_m: 4 } }\nplan:\n"},
		"my.yaml:15: instruments.altimeter.max_m: 4 is not beyond its least altitude (want more than 5 m)"},
	{"instruments as they were", []string{"plan:\n", "instruments: { gnss_noise_m: 1 }\nplan:\n"},
		"my.yaml:15: instruments.gnss_noise_m: is no key of an exercise (want one of gnss, heading, motion, fish_depth, altimeter, compass, counter, beacon, speed_log, wind)"},
	{"mosaic channel", []string{"plan:\n", "desk: { mosaic_channel: high }\nplan:\n"},
		`my.yaml:15: desk.mosaic_channel: "high" names no channel (want low)`},
	{"mosaic cells", []string{"plan:\n", "desk: { mosaic_cell_m: 0.06 }\nplan:\n"},
		"my.yaml:15: desk.mosaic_cell_m: 0.06 makes a mosaic of more than 80 million cells (want at least 0.07 m)"},
	{"score limits", []string{"plan:\n", "score: { altitude_min_percent: 20 }\nplan:\n"},
		"my.yaml:15: score.altitude_min_percent: 20 is not below altitude_max_percent (want less than 20 percent)"},
	{"score area", []string{"plan:\n", "score: { area: [[0, 0], [9, 0], [18, 0]] }\nplan:\n"},
		"my.yaml:15: score.area: encloses less than a square metre (want corners in turn round an area)"},
	{"event without a time", []string{"plan:\n", "events: [{ kind: squall }]\nplan:\n"},
		"my.yaml:15: events[0]: has both at_s and on_line or neither (want one of them)"},
	{"event of another size", []string{"plan:\n", "events: [{ kind: squall, at_s: 5, loss_db: 6, side: port }]\nplan:\n"},
		"my.yaml:15: events[0].side: is not used by squall (want no such key)\n" +
			"my.yaml:15: events[0].loss_db: is not used by squall (want wind_kn)"},
	{"event that lasts no time", []string{"plan:\n", "events: [{ kind: counter_reset, at_s: 5, for_s: 3 }]\nplan:\n"},
		"my.yaml:15: events[0].for_s: is not used by counter_reset (want no such key)"},
	{"event on no line", []string{"plan:\n", "events: [{ kind: winch_jam, on_line: L7 }, { kind: winch_jam, on_line: L2, along_m: 300 }]\nplan:\n"},
		"my.yaml:15: events[0].on_line: \"L7\" names no line (want L1)\n" +
			"my.yaml:15: events[1].along_m: 300 lies beyond the end of the line (want at most 200 m)"},

	// Together.
	{"all at once", []string{"title: Small", "title: 7", "depth_m: 20", "depth_m: 0", "name: L2", "name: L1", "cable_out_m: 20", "cable_out: 20"},
		"my.yaml:1: title: 7 is not text (want text of 1 to 80 characters, in quotes)\n" +
			"my.yaml:7: seabed.depth_m: 0 is out of range (want 2 to 500 m)\n" +
			"my.yaml:14: lines[1].name: \"L1\" is a name already used on line 13 (want a name of its own)\n" +
			"my.yaml:16: plan.cable_out: is no key of an exercise (want cable_out_m)\n" +
			"my.yaml:16: plan.cable_out_m: is missing (want 0.5 to 3000 m)"},
}

func TestFaults(t *testing.T) {
	for _, row := range faultRows {
		t.Run(row.name, func(t *testing.T) {
			_, err := Parse("my.yaml", []byte(edit(t, small(t), row.edit...)))
			if err == nil {
				t.Fatalf("got no error, want\n%s", row.want)
			}
			if got := err.Error(); got != row.want {
				t.Errorf("got\n%s\nwant\n%s", got, row.want)
			}
			if fs := Faults(nil); !errors.As(err, &fs) || len(fs) != strings.Count(row.want, "\n")+1 {
				t.Errorf("got %T of %d, want a fault for each line", err, len(fs))
			}
			var each []string
			if fs, ok := err.(interface{ Unwrap() []error }); ok {
				for _, f := range fs.Unwrap() {
					each = append(each, f.Error())
				}
			}
			if got := strings.Join(each, "\n"); got != row.want {
				t.Errorf("one by one: got\n%s\nwant\n%s", got, row.want)
			}
		})
	}
}

func TestFishAground(t *testing.T) {
	// The depth of the fish comes from package tow, which has its own checks;
	// here only that it is asked: 110 m of cable in 20 m of water at 1 kn.
	_, err := Parse("my.yaml", []byte(edit(t, small(t), "cable_out_m: 20", "cable_out_m: 110\n  speed_kn: 1")))
	if err == nil || !strings.Contains(err.Error(), "my.yaml:16: plan.cable_out_m: 110 puts the fish ") ||
		!strings.Contains(err.Error(), "nowhere deeper than 20 m") {
		t.Errorf("got %v, want a fish too deep at plan.cable_out_m", err)
	}
}

// No text of an exercise may hold what does not show: it would change how the
// rest of a page, a terminal or a chart is read.
func TestTextsHoldNothingInvisible(t *testing.T) {
	base := edit(t, small(t), "  depth_m: 20", `  depth_m: 20
  objects: [{ name: "OBJECT", kind: block, at: [9, 9] }]
  pipelines: [{ name: "PIPELINE", diameter_m: 0.3, path: [[20, 20], [90, 90]] }]`,
		"title: Small", `title: "TITLE"`, "briefing: The least an exercise needs.", `briefing: "BRIEFING"
goals: ["GOAL"]
vessel: { name: "VESSEL" }`, "name: Nowhere", `name: "PLACE"`, "name: low", `name: "CHANNEL"`, "name: L1", `name: "LINE"`)
	if _, err := Parse("my.yaml", []byte(base)); err != nil {
		t.Fatal(err)
	}
	for word, path := range map[string]string{
		"TITLE": "title", "BRIEFING": "briefing", "GOAL": "goals[0]", "VESSEL": "vessel.name", "PLACE": "place.name", "OBJECT": "seabed.objects[0].name",
		"PIPELINE": "seabed.pipelines[0].name", "CHANNEL": "sonar.channels[0].name", "LINE": "lines[0].name",
	} {
		for _, odd := range []string{`\x1b[2J`, `\x7f`, `\u009b`, `\u202e`, `\u2066`, `\u200f`, `\u200b`, `\ufeff`, `\u00ad`, `\u2028`, `\U000e0041`, "\u202e", "\u200b"} {
			_, err := Parse("my.yaml", []byte(edit(t, base, `"`+word+`"`, `"`+word+odd+`x"`)))
			fs := Faults(nil)
			if !errors.As(err, &fs) || len(fs) != 1 || fs[0].Path != path || fs[0].Problem != "holds control or format characters" || strings.ContainsFunc(err.Error(), invisible) {
				t.Errorf("%s with %q: got %q, want one fault that shows it", path, odd, err)
			}
		}
	}
	// Letters of any writing, and lines in prose, are no such thing.
	for word, text := range map[string]string{"TITLE": `Grève de l’Écume, 测线 №3`, "BRIEFING": `One.\n\tTwo.`, "OBJECT": "ånker", "PLACE": "Σκύλλα"} {
		if _, err := Parse("my.yaml", []byte(edit(t, base, `"`+word+`"`, `"`+text+`"`))); err != nil {
			t.Errorf("%s: %v", word, err)
		}
	}
}

// An exercise is called after its file, made fit for the names of files: its
// products' folder and log are called after it.
func TestExercisesAreCalledByFileNames(t *testing.T) {
	for file, want := range map[string]string{
		"a.yaml": "a", "my exercise-2.v1.yaml": "my exercise-2.v1", "dir/with ö/First_Line.yml": "First_Line", "mine (1).yaml": "mine -1-",
		".yaml": "exercise", "..yaml": "exercise", " a .yaml": "a", "ö.yaml": "-", "a\x1b[31m\u202eb.yaml": "a-31m-b", "C:a?.yaml": "C-a-",
		strings.Repeat("n", 300) + ".yaml": strings.Repeat("n", 60), "../../evil.yaml": "evil",
	} {
		e, err := Parse(file, []byte(small(t)))
		if err != nil {
			t.Errorf("%q: %v", file, err)
			continue
		}
		if e.Name != want {
			t.Errorf("%q: called %q, want %q", file, e.Name, want)
		}
	}
}
