package app

import (
	"strings"
	"testing"
)

func TestSettingsGoThereAndBack(t *testing.T) {
	s := DefaultSettings()
	s.Theme, s.Scale, s.Sounds, s.Ramp = "night", 1.4, true, "Grey"
	got, err := ParseSettings(s.Encode())
	if err != nil || got != s {
		t.Errorf("got %+v (%v), want %+v", got, err, s)
	}
}

// All faults are said in one line, and the defaults are used.
func TestBrokenSettings(t *testing.T) {
	for _, row := range []struct{ name, text, want string }{
		{"not JSON", "{", "settings: "},
		{"unknown key", `{"thme":"day"}`, `"thme" is no key that belongs there`},
		{"wrong kind", `{"scale":"big"}`, "scale"},
		{"several", `{"theme":"dusk","scale":9,"ramp":"rainbow"}`, `theme: "dusk" is not known (want day or night); ramp: "rainbow" is not known (want one of Kelp, Tern, Grey); scale: 9 is out of range (want 0.8 to 3)`},
	} {
		got, err := ParseSettings([]byte(row.text))
		if err == nil || !strings.Contains(err.Error(), row.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: got %v, want %q in one line", row.name, err, row.want)
		}
		if got != DefaultSettings() {
			t.Errorf("%s: got %+v, want the defaults", row.name, got)
		}
	}
}

// A broken file is set aside and replaced, and the window says so.
func TestBrokenSettingsAreSetAside(t *testing.T) {
	m := &memory{settings: []byte("{broken")}
	g := NewGame(m, false)
	if string(m.aside) != "{broken" || !strings.Contains(g.Notice, "aside") {
		t.Errorf("set aside %q, notice %q", m.aside, g.Notice)
	}
	if s, err := ParseSettings(m.settings); err != nil || s != DefaultSettings() {
		t.Errorf("replaced by %q", m.settings)
	}
}
