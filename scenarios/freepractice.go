package scenarios

import (
	"fmt"
	"strconv"
	"strings"
)

// Field is a value that can be changed for free practice. What is allowed is
// what the file format allows.
type Field struct {
	Group    string // what it belongs with
	Path     string // for [Change]
	Label    string // a word or two
	Doc      string // a sentence
	Unit     string // empty for none
	Number   bool   // a number between Min and Max; else one of Choices
	Min, Max float64
	Choices  []string
	Default  string // empty if it follows from the rest of the file, or must be given
	Value    string // in the exercise now; empty if it follows from the rest of the file
}

// practice lists what can be changed for free practice, in the order shown. The
// empty index of a list stands for each of its items.
var practice = []struct{ group, path, label string }{
	{"Sea and ground", "sea.wind_kn", "Wind"},
	{"Sea and ground", "sea.wind_from_deg", "Wind from"},
	{"Sea and ground", "sea.waves.fetch_km", "Fetch"},
	{"Sea and ground", "sea.current_kn", "Current"},
	{"Sea and ground", "sea.current_set_deg", "Current sets to"},
	{"Sea and ground", "sea.current_fades", "Current fades with depth"},
	{"Current by depth", "sea.currents[].speed_kn", "Current"},
	{"Current by depth", "sea.currents[].set_deg", "Set"},
	{"Sea and ground", "sea.tide.amplitude_m", "Tide"},
	{"Sea and ground", "seabed.depth_m", "Depth of water"},
	{"Vessel and tow", "vessel.kind", "Vessel"},
	{"Vessel and tow", "tow.fish.kind", "Fish"},
	{"Vessel and tow", "tow.cable.kind", "Cable"},
	{"Vessel and tow", "tow.winch.kind", "Winch"},
	{"Vessel and tow", "plan.speed_kn", "Speed"},
	{"Vessel and tow", "plan.cable_out_m", "Cable out"},
	{"Vessel and tow", "plan.altitude_m", "Height held by the mate"},
	{"Vessel and tow", "plan.turn", "Turns"},
	{"Sonar", "sonar.range_scale_m", "Range scale"},
	{"Sonar", "sonar.channels[].frequency_khz", "Frequency"},
	{"Sonar", "sonar.channels[].pulse_ms", "Pulse"},
	{"Sonar", "sonar.channels[].bandwidth_khz", "Bandwidth"},
	{"Sonar", "sonar.channels[].gain_db", "Gain"},
	{"Desk and help", "desk.catenary_factor", "Catenary factor"},
	{"Desk and help", "desk.sound_speed_m_s", "Sound speed set"},
	{"Desk and help", "help.coach", "Hints"},
	{"Desk and help", "help.true_scene", "True scene"},
	{"Desk and help", "plan.time_limit_min", "Time limit"},
	{"Desk and help", "seed", "Seed"},
}

// FreePractice lists what can be changed of an exercise for free practice, with
// its present values. The error is [Faults].
func FreePractice(name string, source []byte) ([]Field, error) {
	if _, err := Parse(name, source); err != nil {
		return nil, err
	}
	r := &reader{report: report{file: name}, root: rules(), lines: map[string]int{}}
	settings := map[string]any{}
	if err := r.Decode(source, settings); err != nil {
		return nil, err
	}
	_, layers := follow("sea.currents", settings)
	_, layered := layers.([]any)
	var fields []Field
	for _, p := range practice {
		if layered && strings.HasPrefix(p.path, "sea.current_") {
			continue // the layers stand in their place
		}
		before, after, each := strings.Cut(p.path, "[]")
		if !each {
			fields = append(fields, fieldAt(p.group, p.path, p.label, settings))
			continue
		}
		_, value := follow(before, settings)
		items, _ := value.([]any)
		for i := range items {
			label, group := p.label+itemLabel(before, i, len(items), settings), p.group
			if i >= atOnce {
				group = fmt.Sprintf("%s, %d", p.group, i/atOnce+1)
			}
			fields = append(fields, fieldAt(group, fmt.Sprintf("%s[%d]%s", before, i, after), label, settings))
		}
	}
	return fields, nil
}

// atOnce is how many items of a list belong in one group: what is shown at once is
// to be taken in at once.
const atOnce = 8

// itemLabel says of which of several items a value is: of a layer by its depth, of
// others by their name.
func itemLabel(list string, i, of int, settings map[string]any) string {
	if list == "sea.currents" {
		_, depth := follow(fmt.Sprintf("%s[%d].depth_m", list, i), settings)
		return fmt.Sprintf(" at %s m", written(depth))
	}
	if of == 1 {
		return ""
	}
	_, called := follow(fmt.Sprintf("%s[%d].name", list, i), settings)
	return " of " + written(called)
}

// fieldAt describes the value at a path.
func fieldAt(group, path, label string, settings map[string]any) Field {
	u, value := follow(path, settings)
	f := Field{Group: group, Path: path, Label: label, Doc: u.doc, Unit: u.unit, Value: written(value), Default: written(u.fallback)}
	switch u.form {
	case number, integer:
		f.Number, f.Min, f.Max = true, u.lo, u.hi
	case flag:
		f.Choices = []string{"true", "false"}
	default:
		f.Choices = append(f.Choices, u.enum...)
	}
	return f
}

// follow goes down a path to its rule and its value, nil if the file has none.
func follow(path string, settings map[string]any) (*rule, any) {
	u := rules()
	var value any = settings
	for path != "" {
		var step string
		if step, path = cutPath(path); step[0] == '[' {
			i, err := strconv.Atoi(strings.Trim(step, "[]"))
			items, _ := value.([]any)
			if err != nil || i >= len(items) {
				panic("scenarios: free practice names an item that is none")
			}
			u, value = u.items, items[i]
			continue
		}
		u = u.field(step)
		within, _ := value.(map[string]any)
		value = within[step]
	}
	return u, value
}

// field is the rule of a key that there is.
func (u *rule) field(key string) *rule {
	for _, f := range u.fields {
		if f.key == key {
			return f
		}
	}
	panic("scenarios: free practice names a key that is none")
}

// written is a value as a file has it; empty for none.
func written(v any) string {
	if v == nil {
		return ""
	}
	return fmt.Sprint(v)
}
