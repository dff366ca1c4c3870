package scenarios

import (
	"fmt"
	"reflect"
	"slices"
	"sync"

	"dryline/seabed"
	"dryline/sim/trial"
)

// trialFile says what plans are tried on; see [rule] for the tags.
type trialFile struct {
	Targets []targetSection `key:"targets" required:"true" items:"1,32" doc:"What is to be found, so many of each at random places in every run."`
	Area    [][2]float64    `key:"area" items:"3,200" unit:"m" min:"-10000" max:"15000" absent:"score.area of the first plan, or the strip of its lines" doc:"Corners of the area they lie in and that is to be covered, east and north."`
	Weather weatherSection  `key:"weather" doc:"What the weather is drawn from in every run; that of the plans if left out."`
	Costs   costsSection    `key:"costs" doc:"Your own figures of what time and work cost; what is left out is not reckoned."`
	Fit     *fitSection     `key:"fit" absent:"no windows of fit weather are looked for" doc:"When the boat can work, by your own record of the weather."`

	FalseAlarms float64 `key:"false_alarms_per_km2" above:"0" max:"10000" default:"20" doc:"How many things that are none the detector may raise to the square kilometre of bare ground: its threshold is set by that."`
	Bare        float64 `key:"bare_ground_km2" min:"0.01" max:"20" default:"1" doc:"How much bare ground is searched to find that threshold."`
}

type targetSection struct {
	Kind   string  `key:"kind" required:"true" enum:"object" doc:"What it is."`
	Size   float64 `key:"size_m" unit:"m" min:"0.05" max:"50" absent:"the usual measures of the kind" doc:"Length, width and height alike, such as 1 for a cube of a metre; kinds that are round stay round."`
	Count  int     `key:"count" min:"1" max:"40" default:"4" doc:"How many lie there in a run."`
	Burial float64 `key:"burial_percent" unit:"percent" min:"0" max:"95" default:"0" doc:"Share of its height that lies in the floor."`
}

type weatherSection struct {
	Wind     *[2]float64 `key:"wind_kn" unit:"kn" min:"0" max:"60" absent:"that of the plan" doc:"Least and most wind, all alike between."`
	WindFrom *[2]float64 `key:"wind_from_deg" unit:"deg" min:"0" max:"360" absent:"that of the plan" doc:"Bearings that it blows from, clockwise from the first to the second."`
	Current  *[2]float64 `key:"current_kn" unit:"kn" min:"0" max:"8" absent:"that of the plan" doc:"Least and most stream."`
	Set      *[2]float64 `key:"current_set_deg" unit:"deg" min:"0" max:"360" absent:"that of the plan" doc:"Bearings that it sets to, clockwise from the first to the second."`
}

type costsSection struct {
	Hour        *float64 `key:"per_hour" min:"0" max:"1000000" absent:"no cost is reckoned" doc:"What an hour of the boat costs, in whatever currency."`
	Fuel        *float64 `key:"fuel_l_per_h" unit:"l/h" min:"0" max:"10000" absent:"no fuel is reckoned" doc:"What she burns an hour."`
	Investigate *float64 `key:"investigate_min" unit:"min" min:"0" max:"600" absent:"contacts are not investigated" doc:"Minutes to investigate a contact."`
	Contacts    *float64 `key:"contacts_per_km2" min:"0" max:"10000" absent:"as many as false_alarms_per_km2" doc:"Contacts to investigate to the square kilometre, besides targets."`
	Checks      *float64 `key:"daily_checks_min" unit:"min" min:"0" max:"600" absent:"none are reckoned" doc:"Minutes of calibration and checks a day."`
	Day         *float64 `key:"hours_a_day" unit:"h" above:"0" max:"24" absent:"days are not reckoned" doc:"Hours on the water a day."`
	Infill      *float64 `key:"infill_percent" unit:"percent" min:"0" max:"200" absent:"what geometry says is not covered" doc:"Share of the lines' time for filling in."`
}

type fitSection struct {
	MostWind float64   `key:"most_wind_kn" required:"true" unit:"kn" above:"0" max:"60" doc:"Wind in which she works at most."`
	Hourly   []float64 `key:"hourly_wind_kn" required:"true" items:"2,90000" unit:"kn" min:"0" max:"200" doc:"Your record: the wind of hour after hour, without gaps."`
	Least    *float64  `key:"least_window_h" unit:"h" min:"1" max:"240" absent:"the work is not broken off" doc:"Work is broken off when the wind rises and resumed in windows of at least so many hours."`
}

var trialRules = sync.OnceValue(func() *rule {
	r := &rule{form: mapping, doc: "What plans are tried on: targets, weather, costs."}
	r.shape(reflect.TypeFor[trialFile](), "")
	return r
})

// ParseTrial reads what plans are tried on from the contents of a file. The error is
// [Faults].
func ParseTrial(name string, source []byte) (*trial.Spec, error) {
	file, r, err := read[trialFile](name, source, trialRules(), "a trial")
	if err != nil {
		return nil, err
	}
	c := &checker{reader: r}
	spec := &trial.Spec{FalseAlarms: file.FalseAlarms, Bare: file.Bare, Area: points(file.Area)}
	c.polygon("area", file.Area)
	for i, s := range file.Targets {
		at := fmt.Sprintf("targets[%d]", i)
		t := trial.Target{Kind: s.Kind, Count: s.Count, Burial: s.Burial / hundred}
		if k, ok := seabed.Kinds[s.Kind]; ok {
			t.Length, t.Width, t.Height = k.Length, k.Width, k.Height
			if s.Size > 0 {
				t.Length, t.Width, t.Height = seabed.Proportioned(s.Kind, s.Size, s.Size, s.Size)
			}
		}
		if slices.ContainsFunc(spec.Targets, func(b trial.Target) bool {
			return b.Kind == t.Kind && b.Length == t.Length && b.Burial == t.Burial
		}) && c.sound("targets") {
			c.fault(at, "", "is there already", "one entry for each kind and size")
		}
		spec.Targets = append(spec.Targets, t)
	}
	w := &file.Weather
	for _, d := range []struct {
		key  string
		of   *[2]float64
		to   **trial.Range
		turn bool
	}{
		{"wind_kn", w.Wind, &spec.Weather.Wind, false}, {"wind_from_deg", w.WindFrom, &spec.Weather.WindFrom, true},
		{"current_kn", w.Current, &spec.Weather.Current, false}, {"current_set_deg", w.Set, &spec.Weather.Set, true},
	} {
		if d.of == nil {
			continue
		}
		if at := "weather." + d.key; !d.turn && d.of[0] > d.of[1] && c.sound(at) {
			c.fault(at, "", "has the greater value first", "the least first")
		}
		*d.to = &trial.Range{Low: d.of[0], High: d.of[1]}
	}
	k := &file.Costs
	spec.Costs = trial.Costs{
		Hour: k.Hour, Fuel: k.Fuel, Investigate: k.Investigate, Contacts: k.Contacts, Checks: k.Checks, Day: k.Day, Infill: k.Infill,
	}
	if f := file.Fit; f != nil {
		spec.Fit = &trial.Fit{MostWind: f.MostWind, Hourly: f.Hourly, Least: f.Least}
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return spec, nil
}

// LoadTrial reads the file of a trial. The error is [Faults] if the file is there but not as
// it should be.
func LoadTrial(path string) (*trial.Spec, []byte, error) {
	source, err := readSource(path)
	if err != nil {
		return nil, nil, err
	}
	spec, err := ParseTrial(path, source)
	return spec, source, err
}

// TrialSchema returns the JSON Schema (draft 2020-12) of the file of a trial.
func TrialSchema() []byte { return schema(trialRules(), "Dryline trial") }
