package scenarios

import (
	"fmt"
	"strings"
)

// Field is a value that can be changed for free practice. What is allowed is
// what the file format allows.
type Field struct {
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

// practice is what can be changed for free practice, in the order shown.
var practice = []struct{ path, label string }{
	{"sea.wind_kn", "Wind"},
	{"sea.wind_from_deg", "Wind from"},
	{"sea.waves.fetch_km", "Fetch"},
	{"sea.current_kn", "Current"},
	{"sea.current_set_deg", "Current sets to"},
	{"sea.tide.amplitude_m", "Tide"},
	{"seabed.depth_m", "Depth of water"},
	{"vessel.kind", "Vessel"},
	{"tow.fish.kind", "Fish"},
	{"tow.cable.kind", "Cable"},
	{"tow.winch.kind", "Winch"},
	{"plan.speed_kn", "Speed"},
	{"plan.cable_out_m", "Cable out"},
	{"plan.altitude_m", "Height held by the mate"},
	{"plan.turn", "Turns"},
	{"plan.time_limit_min", "Time limit"},
	{"sonar.range_scale_m", "Range scale"},
	{"desk.catenary_factor", "Catenary factor"},
	{"desk.sound_speed_m_s", "Sound speed set"},
	{"help.coach", "Hints"},
	{"help.true_scene", "True scene"},
	{"seed", "Seed"},
}

// FreePractice lists what can be changed of an exercise for free practice, with
// its present values. The error is [Faults].
func FreePractice(name string, source []byte) ([]Field, error) {
	if _, err := Parse(name, source); err != nil {
		return nil, err
	}
	r := &reader{report: report{file: name}, lines: map[string]int{}}
	settings := map[string]any{}
	if err := r.Decode(source, settings); err != nil {
		return nil, err
	}
	var fields []Field
	for _, p := range practice {
		u := rules()
		var value any = settings
		for key := range strings.SplitSeq(p.path, ".") {
			u = u.field(key)
			within, _ := value.(map[string]any)
			value = within[key]
		}
		f := Field{Path: p.path, Label: p.label, Doc: u.doc, Unit: u.unit, Value: written(value), Default: written(u.fallback)}
		switch u.form {
		case number, integer:
			f.Number, f.Min, f.Max = true, u.lo, u.hi
		case flag:
			f.Choices = []string{"true", "false"}
		default:
			f.Choices = append(f.Choices, u.enum...)
		}
		fields = append(fields, f)
	}
	return fields, nil
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
