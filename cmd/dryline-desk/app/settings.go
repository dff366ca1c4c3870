package app

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/course"
	"dryline/sim/order"
	"dryline/sonar/waterfall/picture"
)

// Settings hold a person's choices for the window. None of them changes
// the outcome of a session.
type Settings struct {
	Theme    string  `json:"theme"`    // name of a theme
	Ramp     string  `json:"ramp"`     // name of a colour ramp
	Scale    float64 `json:"scale"`    // of everything, on top of the screen's own
	Contrast float64 `json:"contrast"` // of the sonar pictures
	Sounds   bool    `json:"sounds"`
	Hints    bool    `json:"hints"`
	Foot     bool    `json:"newest_at_foot"` // of the waterfall, not at its top

	// Shares of the window given to the panes.
	SectionShare float64 `json:"section_share"` // of its height
	FallShare    float64 `json:"fall_share"`    // of the width left of the side panel
	SideShare    float64 `json:"side_share"`    // of its width

	Record *course.Record `json:"course_record,omitempty"` // of the course, nil before the first attempt
}

// DefaultSettings are those of a window opened for the first time.
func DefaultSettings() Settings {
	return Settings{
		Theme: look.Day.Name, Ramp: "Grey", Scale: 1, Contrast: 1, Hints: true,
		SectionShare: 0.25, FallShare: 0.63, SideShare: 0.18,
	}
}

// ParseSettings reads a settings file. Everything is checked; the error names
// every fault in one line.
func ParseSettings(data []byte) (Settings, error) {
	s := DefaultSettings()
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&s); err != nil {
		return DefaultSettings(), fmt.Errorf("settings: %w", order.JSONFault(err))
	}
	var faults []string
	if look.Themes[s.Theme] == nil {
		faults = append(faults, fmt.Sprintf("theme: %q is not known (want day or night)", s.Theme))
	}
	if rampNamed(s.Ramp) == nil {
		faults = append(faults, fmt.Sprintf("ramp: %q is not known (want one of %s)", s.Ramp, rampNames()))
	}
	for _, n := range []struct {
		key       string
		v, lo, hi float64
	}{
		{"scale", s.Scale, 0.8, 3}, {"contrast", s.Contrast, 0.4, 3}, {"section_share", s.SectionShare, 0.15, 0.6},
		{"fall_share", s.FallShare, 0.15, 0.85}, {"side_share", s.SideShare, 0.15, 0.4},
	} {
		if math.IsNaN(n.v) || n.v < n.lo || n.v > n.hi {
			faults = append(faults, fmt.Sprintf("%s: %g is out of range (want %g to %g)", n.key, n.v, n.lo, n.hi))
		}
	}
	if len(faults) > 0 {
		return DefaultSettings(), fmt.Errorf("settings: %s", joined(faults))
	}
	return s, nil
}

// Encode is the settings file.
func (s Settings) Encode() []byte {
	out, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		panic("app: settings cannot be written")
	}
	return append(out, '\n')
}

func joined(list []string) string {
	var b bytes.Buffer
	for i, s := range list {
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString(s)
	}
	return b.String()
}

func rampNamed(name string) *picture.Ramp {
	for _, r := range picture.Ramps() {
		if r.Name == name {
			return r.Ramp
		}
	}
	return nil
}

func rampNames() string {
	var names []string
	for _, r := range picture.Ramps() {
		names = append(names, r.Name)
	}
	var b bytes.Buffer
	for i, n := range names {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(n)
	}
	return b.String()
}
