package app

import (
	"strings"
	"testing"

	"dryline/scenarios"
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
